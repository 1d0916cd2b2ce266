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
};
DrawnFigure panel_figure(const Tools& tools, const report::DeviationPlot& plot, const PanelPlace& place);

/// Rows of a table beside which curves are drawn, those of one page.
struct RowsPlace {
    Paper left, right;            ///< of the plot
    Paper head;                   ///< baseline of the numbers of its scale
    Paper top, bottom;            ///< the rules above and below the rows
    std::vector<Paper> levels;    ///< of the rows
    std::size_t first;            ///< target of the first row
    Ticks ticks;
    bool ends;                    ///< brackets stand below
};
/// Deviation to the right, the targets downwards, each level with its row.
DrawnFigure rows_figure(const Tools& tools, const report::OneRun& block, const RowsPlace& place);

/// What changed along the axis, on the scale of its pair: the mean of the later state less that of the earlier, over ± U of the change,
/// with its largest place. The line of no change stands where the curve leaves it room.
/// @param place its ticks' span is the height of the strip, wherever that begins
DrawnFigure difference_figure(const Tools& tools, const report::StatePair& pair, const PanelPlace& place);
/// y ticks on which both panels of a pair and their difference fit.
Ticks pair_ticks(const report::StatePair& pair, int most);

/// Two axes and the lean of the second, far too large; only its side is to scale.
DrawnFigure square_figure(const Tools& tools, const report::SquarenessDrawing& drawing, const Rect& box);

/// Measurement lines in the machine, isometric: the vertical axis up, the two others to the right, down and up, so that the three are
/// right-handed (ISO 841). All to one scale, as large as `box` lets them be; its lower end may stay free.
DrawnFigure lines_figure(const Tools& tools, const report::LineDrawing& drawing, const Rect& box);

/// Deviation round a circle: 0 degrees to the right, positive positions counter-clockwise, one ring for each tick of the
/// deviation. Positions a turn apart share a place; a curve closes where the targets go once round.
DrawnFigure polar_figure(const Tools& tools, const report::DeviationPlot& plot, const Rect& box);

/// A decision rule on the scale of one limit: value with U above, the zones of the verdicts below, one limit line through both.
DrawnFigure decision_figure(const Tools& tools, const report::DecisionPicture& picture, Paper left, Paper right, Paper top);

/// Height of a decision figure.
Paper decision_height();

/// A result and its U on the scale of its limit, and beside it U alone, enlarged and in parts.
struct UncertaintyPlace {
    Paper left, right;              ///< from zero to one and a half limits
    Paper split_left, split_right;  ///< of U alone
    Paper middle;                   ///< of both
};
/// Where the limit stands in every row.
Paper uncertainty_limit(const UncertaintyPlace& place);
frame::Group uncertainty_bar(const Tools& tools, const report::UncertaintyRow& row, const UncertaintyPlace& place);
/// How a part of U is filled: for the key.
frame::Group uncertainty_swatch(const Tools& tools, report::PartOf of, const Rect& box);

/// A correction as steps on the means that it was made of; below it, on the same axis, what is predicted to remain, with the mean that was
/// measured later.
/// @param box the column it stands in with its labels; its height is that of both plots and what is between them
DrawnFigure correction_figure(const Tools& tools, const report::Compensation& block, const Rect& box);

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
