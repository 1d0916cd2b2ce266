#include "evaluate/review/cautions.hpp"

#include "document/states.hpp"
#include "evaluate/review/readings/positions_read.hpp"
#include "evaluate/series/stated.hpp"
#include "input/iso_date.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <iterator>

namespace wayfolio::evaluate {
namespace {

/// A written date and the day it names.
struct Day {
    std::string written;
    std::int64_t days;
};

void add_day(std::vector<Day>& days, const std::string& written) {
    if (const auto date = input::iso_date(written)) days.push_back({written.substr(0, 10), date->days()});
}

std::vector<Day> measuring_days(const document::Document& document) {
    std::vector<Day> days;
    add_day(days, document.job.measured_from);
    add_day(days, document.job.measured_to);
    for (const auto& series : document.series)
        for (const auto& run : series.runs) {
            add_day(days, run.started);
            add_day(days, run.ended);
        }
    std::stable_sort(days.begin(), days.end(), [](const auto& a, const auto& b) { return a.days < b.days; });
    return days;
}

void add_certificates(std::vector<Warning>& warnings, const document::Document& document) {
    const auto days = measuring_days(document);
    if (days.empty()) return;
    for (std::size_t i = 0; i < document.instruments.size(); ++i) {
        const auto& instrument = document.instruments[i];
        const auto due = input::iso_date(instrument.due), calibrated = input::iso_date(instrument.calibrated);
        if (due && due->days() < days.back().days)
            warnings.push_back({FindingCode::CertificateExpired, fmt::format("/instruments/{}/due", i),
                                fmt::format("the calibration of {} ran out on {}, before the measurement of {}",
                                            name_of_instrument(instrument), instrument.due, days.back().written)});
        if (calibrated && calibrated->days() > days.front().days)
            warnings.push_back({FindingCode::CalibratedAfterMeasurement, fmt::format("/instruments/{}/calibrated", i),
                                fmt::format("{} was calibrated on {}, after the measurement of {}", name_of_instrument(instrument),
                                            instrument.calibrated, days.front().written)});
    }
}

std::string place_text(const SeriesEvaluation& series, const TargetEvaluation& target) {
    return fmt::format("{} {}", units::shortest(target.written), series.position_unit.symbol);
}

/// Targets with readings in one direction only, where the series has both; and targets with no reading at all.
void add_uncovered_targets(std::vector<Warning>& warnings, const SeriesEvaluation& series, std::size_t place) {
    std::vector<const TargetEvaluation*> one_way, empty;
    bool positive = false, negative = false;
    for (const auto& target : series.targets) {
        positive = positive || target.one_way.positive.mean;
        negative = negative || target.one_way.negative.mean;
        if (!target.one_way.positive.mean && !target.one_way.negative.mean)
            empty.push_back(&target);
        else if (!target.mean)
            one_way.push_back(&target);
    }
    const auto pointer = fmt::format("/series/{}/runs", place);
    const std::string name = name_of_series(series.error, series.state);
    if (positive && negative && !one_way.empty())
        warnings.push_back(
            {FindingCode::TargetsReadOneWay, pointer,
             fmt::format("{}: reversal value and mean bi-directional deviation over {} of {} targets; {} without readings in one "
                                  "approach, the first at {}",
                                  name, series.targets.size() - one_way.size() - empty.size(), series.targets.size(),
                                  one_way.size(), place_text(series, *one_way.front()))});
    if (!empty.empty() && (positive || negative))
        warnings.push_back({FindingCode::TargetsUnread, pointer,
                            fmt::format("{}: no reading at {} of {} targets, the first at {}", name, empty.size(),
                                                 series.targets.size(), place_text(series, *empty.front()))});
}

void add_positions_read(std::vector<Warning>& warnings, const document::Series& series, const SeriesEvaluation& evaluated,
                        std::size_t place) {
    if (const auto found = positions_read(series, evaluated))
        warnings.push_back({FindingCode::PositionsAsReadings, fmt::format("/series/{}/runs", place),
                            fmt::format("{}: the readings grow with their targets by {:.3f} for each unit: they look like positions, not "
                                        "like deviations from the targets",
                                        name_of_series(series), found->slope)});
}

void add_unequal_runs(std::vector<Warning>& warnings, const document::Series& series, std::size_t place) {
    const auto positive =
        std::count_if(series.runs.begin(), series.runs.end(), [](const auto& run) { return run.approach == Approach::Positive; });
    const auto negative = std::ssize(series.runs) - positive;
    if (positive == 0 || negative == 0 || positive == negative) return;
    warnings.push_back(
        {FindingCode::RunsUnequal, fmt::format("/series/{}/runs", place),
         fmt::format("{}: {} runs in the positive and {} in the negative approach", name_of_series(series), positive, negative)});
}

}  // namespace

std::vector<Warning> cautions(const document::Document& document, const std::vector<SeriesEvaluation>& series) {
    std::vector<Warning> warnings;
    for (std::size_t i = 0; i < series.size(); ++i) {
        add_positions_read(warnings, document.series[i], series[i], i);
        add_unequal_runs(warnings, document.series[i], i);
        // Steps are evaluated at their stations, which all have a height.
        if (series[i].source == Source::Runs && series[i].kind != SeriesKind::AngleSteps)
            add_uncovered_targets(warnings, series[i], i);
        auto disagreements = stated_disagreements(series[i], document.series[i], i);
        std::move(disagreements.begin(), disagreements.end(), std::back_inserter(warnings));
    }
    add_certificates(warnings, document);
    return warnings;
}

}  // namespace wayfolio::evaluate
