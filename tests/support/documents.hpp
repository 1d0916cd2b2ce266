#pragma once
#include "document/document.hpp"

#include <cmath>
#include <string>
#include <vector>

/// Documents for tests, built in few words.
namespace wayfolio::support {

/// One row per run; NAN marks a missing reading.
using Rows = std::vector<std::vector<double>>;

inline constexpr double missing = NAN;

inline document::Run run(document::Approach approach, const std::vector<double>& readings, const units::DeviationUnit& unit) {
    document::Run run;
    run.approach = approach;
    for (const double reading : readings) {
        if (std::isnan(reading))
            run.deviations.emplace_back();
        else
            run.deviations.emplace_back(units::Deviation(reading, unit));
    }
    return run;
}

/// A series called "s" of the error `symbol`, with targets in `position_unit`; its runs stand as positive, then negative ones.
inline document::Series series(const std::string& symbol, const std::vector<double>& targets, const Rows& positive,
                              const Rows& negative, const units::DeviationUnit& unit = units::micrometre,
                              const units::PositionUnit& position_unit = units::position_millimetre) {
    document::Series series;
    series.id = "s";
    series.error = document::error_symbol(symbol).value();
    series.unit = unit;
    series.position_unit = position_unit;
    for (const double target : targets) series.targets.push_back({units::Position(target, position_unit), target});
    for (const auto& readings : positive) series.runs.push_back(run(document::Approach::Positive, readings, unit));
    for (const auto& readings : negative) series.runs.push_back(run(document::Approach::Negative, readings, unit));
    return series;
}

inline document::Document document(const document::Series& series) {
    document::Document document;
    document.file = "test.json";
    document.series.push_back(series);
    return document;
}

/// Gives the document's machine a linear or rotary axis with this travel (mm or deg).
inline void add_axis(document::Document& document, const std::string& name, double from, double to) {
    if (!document.machine) document.machine.emplace();
    const bool rotary = name.find_first_of("ABC") != std::string::npos;
    const auto unit = rotary ? units::position_degree : units::position_millimetre;
    document::Axis axis;
    axis.name = name;
    axis.kind = rotary ? document::AxisKind::Rotary : document::AxisKind::Linear;
    axis.travel = document::Travel{units::Position(from, unit), units::Position(to, unit), unit};
    document.machine->axes.push_back(axis);
}

}  // namespace wayfolio::support
