#include "gather/gather.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::gather {
namespace {

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string series_line(const SeriesAccount& series) {
    std::string line = fmt::format("  {} ({}{}{}): ", input::printable(series.id), series.error, series.state.empty() ? "" : ", ",
                                   input::printable(series.state));
    const bool runs = series.positive_runs + series.negative_runs > 0;
    if (runs)
        line += fmt::format("{}, {} positive and {} negative runs; {}, {} missing, {} set aside",
                            counted(series.targets, "target", "targets"), series.positive_runs, series.negative_runs,
                            counted(series.used, "reading used", "readings used"), series.missing, series.set_aside);
    if (series.samples > 0) line += fmt::format("{}{} on the fly", runs ? "; " : "", counted(series.samples, "sample", "samples"));
    line += "\n";
    for (const std::string& derived : series.derived) line += "    derived: " + input::printable(derived) + "\n";
    return line;
}

bool is_digit_letter(char letter) { return letter >= '0' && letter <= '9'; }

/// The digits at the front, without leading zeros.
std::string_view take_number(std::string_view& text) {
    const auto end = std::ranges::find_if_not(text, is_digit_letter);
    std::string_view digits = text.substr(0, static_cast<std::size_t>(end - text.begin()));
    text.remove_prefix(digits.size());
    while (digits.size() > 1 && digits.front() == '0') digits.remove_prefix(1);
    return digits;
}

}  // namespace

bool before_by_number(std::string_view a, std::string_view b) {
    const std::string_view whole_a = a, whole_b = b;
    while (!a.empty() && !b.empty()) {
        if (is_digit_letter(a.front()) && is_digit_letter(b.front())) {
            const std::string_view first = take_number(a), second = take_number(b);
            if (first.size() != second.size()) return first.size() < second.size();
            if (first != second) return first < second;
        } else {
            if (a.front() != b.front()) return a.front() < b.front();
            a.remove_prefix(1);
            b.remove_prefix(1);
        }
    }
    return a.empty() != b.empty() ? a.empty() : whole_a < whole_b;
}

std::string account_text(const Account& account) {
    std::string text;
    for (const ExportAccount& file : account.exports)
        text += fmt::format("  {}: {} read, {} passed over, SHA-256 {}\n", input::printable(file.file), counted(file.rows, "row", "rows"),
                            file.passed_over, file.sha256);
    for (const std::string& file : account.not_read)
        text += fmt::format("  {}: not read, no part of the mapping names it\n", input::printable(file));
    text = fmt::format("{}:\n", counted(account.exports.size(), "export", "exports")) + text;
    if (!account.series.empty()) text += fmt::format("{}:\n", counted(account.series.size(), "series", "series"));
    for (const SeriesAccount& series : account.series) text += series_line(series);
    for (const std::string& id : account.waiting) text += fmt::format("  {}: planned, no readings yet\n", input::printable(id));
    if (!account.facts.empty()) text += counted(account.facts.size(), "file of facts", "files of facts") + ":\n";
    for (const FactsAccount& facts : account.facts)
        text += fmt::format("  {}: {} taken, {} there already, SHA-256 {}\n", input::printable(facts.file),
                            counted(facts.taken, "fact", "facts"), facts.there, facts.sha256);
    for (const FactsAccount& facts : account.facts)
        if (facts.left_out > 0)
            text += fmt::format("  {}: {} left out, for the document has no such error or machine\n", input::printable(facts.file),
                                counted(facts.left_out, "contributor or limit", "contributors and limits"));
    for (const std::string& file : account.not_kept)
        text += fmt::format("  {}: not kept, for what is kept goes to the customer, and it holds \"internal\"\n", input::printable(file));
    if (account.surroundings > 0) text += counted(account.surroundings, "sample of the environment", "samples of the environment") + "\n";
    return text;
}

}  // namespace wayfolio::gather
