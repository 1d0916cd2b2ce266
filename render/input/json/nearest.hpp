#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace wayfolio::input {

/// The known word that a misspelt one most likely meant: fewest insertions, deletions, replacements and swaps of neighbours,
/// at most a third of the letters; or the longest known word that begins it (or that it begins). Case and "µ" for "u" count as equal.
std::optional<std::string_view> nearest(std::string_view written, std::span<const std::string_view> known);

/// `did you mean "um"?`, or empty when nothing is near.
std::string nearest_hint(std::string_view written, std::span<const std::string_view> known);

/// Words as a list: `um, mm, in`.
std::string listed(std::span<const std::string_view> words);

}  // namespace wayfolio::input
