#pragma once
#include "plot/area.hpp"
#include "plot/shapes.hpp"
#include "units/number_text.hpp"

/// Lines, bands and markers of the two approach directions.
namespace wayfolio::plot::marks {

using report::Approach;

/// The stretches of targets that have a mean of this direction (without one, of both directions), each as points on paper.
std::vector<std::vector<Point>> stretches(const std::vector<evaluate::TargetEvaluation>& targets, const Area& area,
                                          std::optional<Approach> approach);

/// Means of one direction, broken where a target has none.
frame::Group mean_line(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach);
/// Means of another result, pale: the same lines without markers.
frame::Group pale_means(const Tools& tools, const report::PaleMeans& means, const Area& area);
/// Mean of both directions; where no direction has means of its own (angle steps) it is the curve itself, with markers.
frame::Group bidirectional_line(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper radius);
/// Outlines of mean ± 2 s over each stretch of targets that have both: along the upper edge, then back along the lower.
std::vector<std::vector<Point>> band_outlines(const report::DeviationPlot& plot, const Area& area, Approach approach);
/// The band of mean ± 2 s in its direction's tint.
frame::Group band(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach);
/// Where both bands are, in the product of their tints, as if both inks lay on the paper.
frame::Group band_overlap(const Tools& tools, const report::DeviationPlot& plot, const Area& area);
/// Hatch and edges of a band: told apart without colour too.
frame::Group band_hatch(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach);
frame::Group band_edges(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach);
/// Single runs, thin and pale; broken at missing and excluded readings.
frame::Group runs(const Tools& tools, const report::DeviationPlot& plot, const Area& area);
/// The on-the-fly record.
frame::Group trace(const Tools& tools, const report::DeviationPlot& plot, const Area& area);

/// Radius that keeps `targets` markers apart over `width` of paper, never above `most`.
Paper marker_radius(Paper most, Paper width, std::size_t targets);
/// One marker per target: positive filled, negative open. Over 120 targets only those that set a parameter keep theirs.
frame::Group markers(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach, Paper radius);
frame::Group marker(const Tools& tools, Approach approach, Point centre, Paper radius);

/// Where an excluded reading is drawn; beyond the scale, it stands at the edge and its value is written.
struct ExcludedPlace {
    Point centre;
    std::string words;  ///< the letter of its note, and the value
    Align align;        ///< of the words, beside the centre
    Rect box;           ///< of cross and words
};
std::vector<ExcludedPlace> excluded_places(const Tools& tools, const report::DeviationPlot& plot, const Area& area);
/// Excluded readings: a cross with its words.
frame::Group excluded(const Tools& tools, const report::DeviationPlot& plot, const Area& area);

}  // namespace wayfolio::plot::marks
