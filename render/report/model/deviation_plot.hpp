#pragma once
#include "evaluate/evaluation.hpp"
#include "report/model/text.hpp"

#include <optional>
#include <string>
#include <vector>

/// What a deviation figure shows, in quantities with their units; where it lands on paper is plot's business.
namespace wayfolio::report {

using document::Approach;
using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// One run, over the targets in rising order; a missing or excluded reading breaks the line.
struct RunCurve {
    Approach approach;
    std::vector<std::optional<Deviation>> readings;  ///< as many as the plot has targets, moved as they are
};

struct ExcludedMark {
    Position position;
    Deviation value;
    std::string letter;  ///< of its note in the readings table
};

/// A span measured at the figure's side: which levels, and the symbol that names it.
struct Bracket {
    std::string symbol;
    Deviation low, high;
};

/// A level over one target that sets a parameter.
struct SettingTick {
    std::size_t target;  ///< place among the plot's targets
    Deviation level;
    bool above;          ///< an upper extreme: its label stands above
    std::string symbol;  ///< A, E, M; empty where only the target number is written
};

/// A tolerance on a range: two lines one limit apart, centred on the extremes that it judges.
struct LimitLines {
    Deviation width, centre;
    Text label, short_label;
};

/// The means of another result on the same axis, drawn pale beneath: as measured under what is predicted, or the older of two results.
struct PaleMeans {
    std::string words;  ///< in the key: "means as measured"
    std::vector<evaluate::TargetEvaluation> targets;  ///< rising, moved as those of the plot; their spread is not drawn
};

struct DeviationPlot {
    std::string series_id;
    std::string quantity;    ///< "Deviation", "Pitch EBX" ...
    std::string axis_name;   ///< "X"
    DeviationUnit unit = units::micrometre;              ///< shown
    PositionUnit position_unit = units::position_millimetre;  ///< shown
    int reading_decimals = 1;                                 ///< of a reading that is told in figures
    std::vector<evaluate::TargetEvaluation> targets;     ///< rising; levels already moved (reference line, zero) as drawn
    std::vector<RunCurve> runs;
    std::optional<PaleMeans> pale_means;
    std::vector<ExcludedMark> excluded;
    std::vector<Bracket> brackets;  ///< from inside out
    std::vector<SettingTick> ticks;
    std::optional<LimitLines> limit;
    std::vector<document::TraceSample> trace;
    bool bands = false;        ///< ± 2 s is known at some target
    std::string alternative;   ///< what a colleague would say over the phone
    std::string reversal_alternative, repeatability_alternative;  ///< the same of the strips, a sentence each; empty without one
};

/// The mean along the axis, as drawn in that figure: of both directions, or of the one that was measured; of a trace where there are no
/// means.
std::vector<std::pair<Position, Deviation>> mean_curve_of(const DeviationPlot& plot);

}  // namespace wayfolio::report
