#pragma once
#include "gather/exports/dialect.hpp"
#include "input/json/object_reader.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>

/// How the text of an export is read, in the words of a mapping.
namespace wayfolio::gather {

/// How a text is read; of what a person says it to be, what he did not say is nothing.
struct ReadAs {
    std::optional<Encoding> encoding;
    std::optional<char> delimiter, decimal_mark;
};

inline constexpr std::array<input::Word<Encoding>, 3> encoding_words{
    {{"utf-8", Encoding::Utf8}, {"utf-16", Encoding::Utf16}, {"latin-1", Encoding::Latin1}}};
/// Those that are looked for, in this order where several cut as well.
inline constexpr std::array<input::Word<char>, 5> delimiter_words{
    {{"tab", '\t'}, {";", ';'}, {",", ','}, {"|", '|'}, {"blanks", Dialect::blanks}}};
inline constexpr std::array<input::Word<char>, 2> decimal_mark_words{{{".", '.'}, {",", ','}}};

/// The word for a meaning, which has one.
template <typename Meaning, std::size_t count>
std::string word_for(const std::array<input::Word<Meaning>, count>& words, Meaning meaning) {
    for (const auto& word : words)
        if (word.meaning == meaning) return std::string(word.text);
    return {};
}

}  // namespace wayfolio::gather
