#include "gather/shapes/head.hpp"

#include <array>

namespace wayfolio::gather {
namespace {

struct Spelling {
    std::string_view written, unit;
};
/// How people write the units that a document knows, and those of temperatures and pressures. U+00B5 and U+03BC are both a micro sign.
constexpr std::array<Spelling, 34> spellings{{{"um", "um"},          {"\u00b5m", "um"}, {"\u03bcm", "um"},     {"mm", "mm"},
                                              {"in", "in"},          {"inch", "in"},    {"uin", "uin"},        {"\u00b5in", "uin"},
                                              {"\u03bcin", "uin"},   {"urad", "urad"},  {"\u00b5rad", "urad"}, {"\u03bcrad", "urad"},
                                              {"arcsec", "arcsec"},  {"\"", "arcsec"},  {"\u2033", "arcsec"},  {"''", "arcsec"},
                                              {"deg", "deg"},        {"\u00b0", "deg"}, {"um/m", "um/m"},      {"\u00b5m/m", "um/m"},
                                              {"\u03bcm/m", "um/m"}, {"C", "C"},        {"degC", "C"},         {"\u00b0C", "C"},
                                              {"\u2103", "C"},       {"F", "F"},        {"degF", "F"},         {"\u00b0F", "F"},
                                              {"hPa", "hPa"},        {"mbar", "hPa"},   {"kPa", "kPa"},        {"Pa", "Pa"},
                                              {"%", "percent"},      {"ppm", "ppm"}}};

std::optional<std::string> unit_spelt(std::string_view word) {
    for (const Spelling& spelling : spellings)
        if (spelling.written == word) return std::string(spelling.unit);
    return std::nullopt;
}

}  // namespace

std::optional<std::string> unit_in_head(std::string_view head) {
    while (head.ends_with(' ')) head.remove_suffix(1);
    for (const auto& [open, close] : {std::pair('[', ']'), std::pair('(', ')'), std::pair('/', '\0')}) {
        if (close != '\0' && !head.ends_with(close)) continue;
        const std::size_t start = close == '\0' ? head.find(open) : head.rfind(open);  // "E / µm/m" has its unit behind the first stroke
        if (start == std::string_view::npos) continue;
        std::string_view word = head.substr(start + 1, head.size() - start - 1 - (close == '\0' ? 0 : 1));
        while (word.starts_with(' ')) word.remove_prefix(1);
        while (word.ends_with(' ')) word.remove_suffix(1);
        if (auto unit = unit_spelt(word)) return unit;
    }
    const std::size_t blank = head.find_last_of(" _");
    // "Check in" is no inch: a bare word counts only where it can be nothing else.
    const std::string_view word = blank == std::string_view::npos ? std::string_view() : head.substr(blank + 1);
    return word == "in" || word == "C" || word == "F" || word == "\"" ? std::nullopt : unit_spelt(word);
}

}  // namespace wayfolio::gather
