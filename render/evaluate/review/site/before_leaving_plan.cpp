#include "evaluate/review/site/before_leaving.hpp"
#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>

namespace wayfolio::evaluate {
namespace {

using document::Approach;
using document::RunOrder;
using document::Series;

std::size_t runs_of(const Series& series, Approach approach) {
    return static_cast<std::size_t>(std::ranges::count(series.runs, approach, &document::Run::approach));
}

void add_missing_runs(std::vector<BeforeLeaving>& lines, const Series& series, std::size_t place) {
    for (const Approach approach : {Approach::Positive, Approach::Negative}) {
        const std::size_t made = runs_of(series, approach), planned = series.plan->runs[approach];
        if (made >= planned) continue;
        lines.push_back({FindingCode::FewerRunsThanPlanned,
                         fmt::format("{} of {} planned runs in the {} approach", made, planned, document::word(approach)),
                         fmt::format("series {} (/series/{})", series.id, place), "certain",
                         "make the runs that are open, or change the plan"});
    }
}

/// The run that stands where the plan has one of the other approach; nothing where runs follow each other as planned.
std::optional<std::size_t> first_out_of_turn(const Series& series) {
    for (std::size_t run = 1; run < series.runs.size(); ++run) {
        const bool same = series.runs[run].approach == series.runs[run - 1].approach;
        const auto before = std::span(series.runs).first(run - 1);
        const bool seen = std::ranges::find(before, series.runs[run].approach, &document::Run::approach) != before.end();
        if (series.plan->order == RunOrder::Alternating ? same : !same && seen) return run;
    }
    return std::nullopt;
}

/// The run that began before the one that the document lists before it.
std::optional<std::size_t> first_before_its_turn(const Series& series) {
    for (std::size_t run = 1; run < series.runs.size(); ++run) {
        const auto begun = input::iso_date(series.runs[run].started), before = input::iso_date(series.runs[run - 1].started);
        if (begun && before && begun->seconds && before->seconds && input::is_before(*begun, *before)) return run;
    }
    return std::nullopt;
}

/// Where one approach was to be measured, there is no turn to be out of.
void add_order(std::vector<BeforeLeaving>& lines, const Series& series, std::size_t place) {
    const bool both = series.plan->runs.positive > 0 && series.plan->runs.negative > 0;
    const std::string planned =
        series.plan->order == RunOrder::Alternating ? "in turn, there and back" : "all of one approach before the other";
    if (const auto run = both ? first_out_of_turn(series) : std::nullopt)
        lines.push_back({FindingCode::OrderNotAsPlanned, fmt::format("the runs were planned {}; this one is out of turn", planned),
                         run_place(series, place, *run), "certain", "know it when you read the results: a drift looks like a reversal"});
    if (const auto run = first_before_its_turn(series))
        lines.push_back({FindingCode::OrderNotAsPlanned, "the run began before the one that stands before it",
                         run_place(series, place, *run), "certain, by the times of the runs",
                         "compare with the instrument's own record; correct the document, not the readings"});
}

}  // namespace

void add_plan_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document) {
    for (std::size_t place = 0; place < document.series.size(); ++place) {
        const Series& series = document.series[place];
        if (!series.plan || series.runs.empty()) continue;
        add_missing_runs(lines, series, place);
        add_order(lines, series, place);
    }
    for (std::size_t place = 0; place < document.planned.size(); ++place)
        lines.push_back({FindingCode::PlannedSeriesOpen, "the series is planned and has no readings",
                         fmt::format("series {} (/series/{})", document.planned[place].id, document.series.size() + place), "certain",
                         "measure it, or take it out of the document"});
}

}  // namespace wayfolio::evaluate
