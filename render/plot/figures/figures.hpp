#pragma once
#include "plot/area.hpp"
#include "plot/tools.hpp"
#include "report/model/model.hpp"
#include "report/model/record_plot.hpp"

/// Finished figures: groups with role Figure and alternative text, placed on the page. What is measured comes in the units that the model
/// says are shown; places are on paper. All throw text::GlyphMissing for a character that no private font has.
namespace wayfolio::plot {

/// A figure and the heights that texts beside it speak about.
struct DrawnFigure {
    frame::Group group;
    Paper bottom;                       ///< lower end of what was drawn
    Paper bracket_top;                  ///< top of the outermost bracket
    std::optional<Paper> reversal_top, repeatability_top;  ///< tops of the strips that were drawn
    Paper plot_left{}, plot_right{};    ///< of the plot within
};

enum class Strip { Reversal, Repeatability };

/// Beside a key in the margin curves need no words; a figure that stands alone names them.
enum class CurveWords { None, AtCurves };

/// Which strips the data support.
std::vector<Strip> supported_strips(const report::DeviationPlot& plot);

/// Deviation against position with bands, runs, limits and brackets; below it, on the same axis, the strips asked for.
/// @param main where the main plot stands: the column it shares with its labels, its upper edge (the axis title stands 12 pt above) and
/// height
DrawnFigure error_figure(const Tools& tools, const report::DeviationPlot& plot, const std::vector<Strip>& strips, const Rect& main,
                         CurveWords words = CurveWords::None);
/// Height that the strips take below the main plot, with the numbers of the position axis.
Paper strips_height(const Tools& tools, std::size_t strips);

/// Means of runs in their order, each as a bar as long as the run, above the temperatures over the same clock.
/// @param plot_left, plot_right  of the figure above, that all stand in line
DrawnFigure run_order_figure(const Tools& tools, const report::RunOrder& order, Paper left, Paper plot_left, Paper plot_right, Paper top);
/// Height from the lower end of the figure above to that of this one.
Paper run_order_height(const report::RunOrder& order);
/// Where its means begin below the figure above, and its temperatures below those.
inline constexpr double run_means_below = 22, run_means_height = 20, temperatures_below = 21, temperatures_height = 25;

/// One strip alone, with its own labelled position axis.
DrawnFigure strip_figure(const Tools& tools, const report::DeviationPlot& plot, Strip strip, Paper left, Paper right, Paper top,
                         Paper height);

/// How a panel of small multiples sits among its sisters.
struct PanelPlace {
    Paper left, right, top, height;   ///< outside of the plot area: labels stand left of `plot_left`
    Paper plot_left;
    Ticks ticks;                      ///< one y scale for all sisters
    Extent positions;                 ///< one position axis for all sisters
    bool x_numbers = true, y_numbers = true;
    Paper marker_radius;
    report::Text x_title;
    bool direct_labels = false;       ///< "positive", "negative" at the curves, where there is room
    std::string bracket_number;       ///< written at the bracket instead of a symbol
};
DrawnFigure panel_figure(const Tools& tools, const report::DeviationPlot& plot, const PanelPlace& place);

/// Two axes and the lean of the second, far too large; only its side is to scale.
DrawnFigure square_figure(const Tools& tools, const report::SquarenessDrawing& drawing, const Rect& box);

/// Deviation round a circle: 0 degrees to the right, positive positions counter-clockwise, one ring for each tick of the
/// deviation. Positions a turn apart share a place; a curve closes where the targets go once round.
DrawnFigure polar_figure(const Tools& tools, const report::DeviationPlot& plot, const Rect& box);

/// A decision rule on the scale of one limit: value with U above, the zones of the verdicts below, one limit line through both.
DrawnFigure decision_figure(const Tools& tools, const report::DecisionPicture& picture, Paper left, Paper right, Paper top);

/// Height of a decision figure.
Paper decision_height();

/// A drawn record, and the words of its curves with the heights they speak about, from top to bottom.
struct RecordFigure {
    DrawnFigure drawn;
    std::vector<std::pair<Paper, report::Text>> words;
};

/// Curves over the measuring time, one above the other on one time axis, with the runs as lanes behind them.
/// @param words AtCurves: names and ranges stand in the panels' titles instead of beside the figure
RecordFigure record_figure(const Tools& tools, const report::RecordPlot& plot, Paper left, Paper right, Paper top, CurveWords words);
/// Height from `top` to the numbers of the time axis.
Paper record_height(const Tools& tools, const report::RecordPlot& plot);

/// Position axis for figures that share it: from 0 where the data begin near it, to the last target.
Extent shared_positions(const std::vector<const report::DeviationPlot*>& plots);
/// y ticks that hold every plot.
Ticks shared_ticks(const std::vector<const report::DeviationPlot*>& plots, int most);

}  // namespace wayfolio::plot
