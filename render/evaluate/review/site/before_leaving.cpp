#include "evaluate/review/site/before_leaving.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace wayfolio::evaluate {
namespace {

std::ptrdiff_t count_of(const std::vector<BeforeLeaving>& lines, Concern about) {
    return std::count_if(lines.begin(), lines.end(), [&](const auto& line) { return concern(line.code) == about; });
}

/// "2 findings in the readings, 1 finding in the evidence"
std::string machine_words(const std::vector<BeforeLeaving>& lines) {
    constexpr std::array places{std::pair{Concern::Readings, "in the readings"},
                                std::pair{Concern::Setup, "in set-up and environment"},
                                std::pair{Concern::Conditions, "in the conditions of the standard"},
                                std::pair{Concern::Evidence, "in the evidence that cannot be recorded later"}};
    std::vector<std::string> parts;
    for (const auto& [about, place] : places)
        if (const auto n = count_of(lines, about); n > 0)
            parts.push_back(fmt::format("{} {} {}", n, n == 1 ? "finding" : "findings", place));
    return fmt::format("{}", fmt::join(parts, ", "));
}

/// "still missing in the document: entries for ISO/IEC 17025, uncertainty; for the desk: 1 finding"
std::string desk_words(const std::vector<BeforeLeaving>& lines) {
    constexpr std::array purposes{std::pair{FindingCode::MissingForAccreditation, "ISO/IEC 17025"},
                                  std::pair{FindingCode::MissingForTestReport, "the ISO 230-2 test report"},
                                  std::pair{FindingCode::MissingForDecision, "decisions"},
                                  std::pair{FindingCode::MissingForUncertainty, "uncertainty"}};
    std::vector<std::string> missing, parts;
    auto others = count_of(lines, Concern::Papers);
    for (const auto& [code, purpose] : purposes) {
        const auto n = std::count_if(lines.begin(), lines.end(), [&, code = code](const auto& line) { return line.code == code; });
        if (n > 0) missing.emplace_back(purpose);
        others -= n;
    }
    if (!missing.empty()) parts.push_back(fmt::format("still missing in the document: entries for {}", fmt::join(missing, ", ")));
    if (others > 0) parts.push_back(fmt::format("for the desk: {} {}", others, others == 1 ? "finding" : "findings"));
    return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace

std::vector<BeforeLeaving> before_leaving(const document::Document& document, const Evaluation& evaluation) {
    std::vector<BeforeLeaving> lines;
    add_reading_concerns(lines, document, evaluation);
    add_state_concerns(lines, document, evaluation);
    add_copied_series(lines, document);
    add_plane_concerns(lines, document, evaluation);
    add_limit_concerns(lines, document, evaluation);
    add_setup_concerns(lines, document, evaluation);
    add_plan_concerns(lines, document);
    add_unmet_conditions(lines, document, evaluation);
    add_missing_evidence(lines, document, evaluation);
    add_paper_concerns(lines, document, evaluation);
    std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.code < b.code; });
    return lines;
}

bool open_at_machine(const std::vector<BeforeLeaving>& lines) {
    return std::any_of(lines.begin(), lines.end(), [](const auto& line) { return at_machine(line.code); });
}

std::string last_line(const std::vector<BeforeLeaving>& lines) {
    const std::string desk = desk_words(lines);
    if (open_at_machine(lines))
        return fmt::format("Before leaving, settle at the machine: {}{}{}.", machine_words(lines), desk.empty() ? "" : "; ", desk);
    return desk.empty() ? "Nothing left to do at the machine." : fmt::format("Machine work complete; {}.", desk);
}

std::string run_name(const document::Series& series, std::size_t run) {
    const Approach approach = series.runs[run].approach;
    std::size_t number = 0;
    for (std::size_t i = 0; i <= run; ++i) number += series.runs[i].approach == approach ? 1 : 0;
    return fmt::format("run {} {}", number, document::word(approach));
}

std::string run_place(const document::Series& series, std::size_t place, std::size_t run) {
    return fmt::format("series {}, {} (/series/{}/runs/{})", series.id, run_name(series, run), place, run);
}

}  // namespace wayfolio::evaluate
