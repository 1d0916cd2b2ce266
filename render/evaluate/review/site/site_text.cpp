#include "evaluate/review/site/findings.hpp"

#include <fmt/core.h>

namespace wayfolio::evaluate {
namespace {

/// Two lines each, one for what is left out, one for the sentence: ten.
constexpr std::size_t most_on_site = 4;

/// The findings of one code, told by the first.
struct SiteEntry {
    const BeforeLeaving* first;
    std::size_t count;
};

std::vector<SiteEntry> site_entries(const std::vector<BeforeLeaving>& lines) {
    std::vector<SiteEntry> entries;
    for (const BeforeLeaving& line : lines) {
        if (!at_machine(line.code)) continue;
        // Findings of one code stand together: they come in the order of the codes.
        if (!entries.empty() && entries.back().first->code == line.code)
            ++entries.back().count;
        else
            entries.push_back({&line, 1});
    }
    return entries;
}

}  // namespace

std::string site_text(const Findings& findings) {
    const auto entries = site_entries(findings.before_leaving);
    std::string text;
    std::size_t left_out = 0;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (i >= most_on_site) {
            left_out += entries[i].count;
            continue;
        }
        const auto& [first, count] = entries[i];
        const std::string more = count == 1 ? "" : fmt::format(" and {} more", count - 1);
        text += fmt::format("{}. {} [{}]\n   {}{}: {}\n", i + 1, first->what, word(first->code), first->where, more, first->act);
    }
    if (left_out > 0) text += fmt::format("{} more at the machine; --all lists everything\n", left_out);
    return text + last_line(findings.before_leaving) + "\n";
}

}  // namespace wayfolio::evaluate
