#pragma once
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>

namespace wayfolio::evaluate {

/// One series under judgement, with the words its lines need.
struct JudgedSeries {
    const document::Series& source;
    const SeriesEvaluation& evaluated;
    std::size_t place;
    std::vector<BeforeLeaving>& lines;

    [[nodiscard]] std::string unit() const { return std::string(evaluated.unit.symbol); }
    /// A value of the hints (µm or µrad) in the series' own unit.
    [[nodiscard]] double own(double base) const { return Deviation(base, base_unit(evaluated.unit.dimension)).in(evaluated.unit); }
    [[nodiscard]] std::string series() const { return fmt::format("series {} (/series/{})", evaluated.id, place); }
    [[nodiscard]] std::string run(std::size_t run) const { return run_place(source, place, run); }
    /// "run 3 positive"
    [[nodiscard]] std::string run_words(std::size_t run) const { return run_name(source, run); }
    void add(FindingCode code, std::string what, std::string where, std::string how_sure, std::string act) const {
        lines.push_back({code, std::move(what), std::move(where), std::move(how_sure), std::move(act)});
    }
};

inline std::string test_words(const char* statistic, double p, double level) {
    return fmt::format("{}: p = {:.1e}, level {:.1e}", statistic, p, level);
}

/// The parts of add_reading_concerns() for one series.
void add_misread(const JudgedSeries& j);
void add_axis_properties(const JudgedSeries& j, const SeriesHints& hints);
void add_target_list(const JudgedSeries& j, const document::Document& document);

}  // namespace wayfolio::evaluate
