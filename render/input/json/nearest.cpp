#include "input/json/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <vector>

namespace wayfolio::input {
namespace {

/// Lower case, with both micro signs (U+00B5, U+03BC) as "u".
std::string folded(std::string_view word) {
    std::string result;
    for (std::size_t place = 0; place < word.size(); ++place) {
        const std::string_view two = word.substr(place, 2);
        if (two == "\xC2\xB5" || two == "\xCE\xBC") {
            result += 'u';
            ++place;
        } else {
            const char letter = word[place];
            result += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
        }
    }
    return result;
}

/// Optimal string alignment distance (Damerau 1964, restricted form).
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
    }
    return row[b.size()];
}

constexpr std::size_t longest_compared = 64;

}  // namespace

std::optional<std::string_view> nearest(std::string_view written, std::span<const std::string_view> known) {
    if (written.empty() || written.size() > longest_compared) return std::nullopt;
    const std::string wanted = folded(written);
    std::optional<std::string_view> best, begins;
    std::size_t fewest = 0;
    for (const std::string_view word : known) {
        const std::string candidate = folded(word);
        const std::size_t steps = distance(wanted, candidate);
        const std::size_t allowed = std::max<std::size_t>(1, std::max(wanted.size(), candidate.size()) / 3);
        if (steps <= allowed && steps < candidate.size() && (!best || steps < fewest)) {
            best = word;
            fewest = steps;
        }
        const bool one_begins_other = wanted.size() >= 2 && candidate.size() >= 2 &&
                                      (wanted.starts_with(candidate) || candidate.starts_with(wanted));
        if (one_begins_other && (!begins || word.size() > begins->size())) begins = word;
    }
    return best ? best : begins;
}

std::string nearest_hint(std::string_view written, std::span<const std::string_view> known) {
    const auto word = nearest(written, known);
    return word ? fmt::format("did you mean \"{}\"?", *word) : std::string();
}

std::string listed(std::span<const std::string_view> words) { return fmt::format("{}", fmt::join(words, ", ")); }

}  // namespace wayfolio::input
