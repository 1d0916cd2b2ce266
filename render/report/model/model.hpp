#pragma once
#include "document/logo_picture.hpp"
#include "report/model/answer.hpp"
#include "report/model/line_drawing.hpp"
#include "report/model/record_plot.hpp"
#include "report/model/uncertainty_block.hpp"
#include "report/model/verdict.hpp"

#include <array>
#include <variant>

/// What the report says: ordered blocks with final words. Knows nothing of points, fonts or colours. What is drawn to scale stands as
/// quantities with their units (plots, curves, pictures); what is read (leads, tables, values in the margin) stands as text, its numbers
/// printed: units, decimals and the decimal mark were chosen where the words were made. Plain values that own all they hold.
namespace wayfolio::report {

/// A value beside the figure: symbol, number, and what it is.
struct MarginValue {
    std::string symbol;
    Text number;
    std::vector<Text> notes;
};

struct ParameterRow {
    Text name;
    std::string symbol;  ///< "A"; empty: of an older evaluation, for comparison only
    Text positive, negative, both, U, limit, targets;
    Verdict verdict;
};

/// One positioning series: figure with strips, brackets, parameter table.
struct PositioningOpening {
    Opening opening;
    Verdict verdict;
    std::string figure_number;
    Text caption;
    DeviationPlot plot;
    std::vector<MarginValue> values;  ///< in the order of the brackets from outside in
    MarginValue reversal, repeatability;
    std::vector<ParameterRow> parameters;
    std::string parameter_unit;  ///< symbol: "µm"
    std::vector<Text> notes;
    std::size_t runs_per_direction = 0;  ///< the most readings used at a target from one direction
    std::optional<RunOrder> run_order;   ///< none: the document does not say when each run was read
};

/// Plain text parts: conditions, set-up, instruments, method, what is lacking, cautions, sign-off.
struct Paragraph {
    Text text;
};
struct BulletList {
    std::vector<Text> items;
};
struct FactTable {
    std::vector<Fact> facts;
};
/// A plain table. Its cells are final words; numbers stand at the right edge of their column, words begin at its left and are wrapped.
enum class Cells { Words, Numbers, Gauges };
inline constexpr Cells numbers = Cells::Numbers;  // short, as tables are written down in rows
struct TableColumn {
    std::string head;
    double width;  ///< share of the width, all together 1; takes no part where the page sets the width
    Cells cells = Cells::Words;
};
/// A value on the scale of its limit, and where it stood before.
struct CellGauge {
    double value_of_limit;
    std::optional<double> U_of_limit, was_of_limit;
    Standing standing;
    bool changed;       ///< else it is drawn in grey
    std::string words;  ///< the same, for those who hear it
};
struct PlainTable {
    std::vector<TableColumn> columns;
    std::vector<std::vector<Text>> rows = {};  ///< each as long as `columns`; empty words in a column of gauges
    std::vector<std::optional<CellGauge>> gauges = {};  ///< one a row; of a table that has a column of them
};
using SectionPart = std::variant<Paragraph, BulletList, FactTable, PlainTable>;

/// Running text that is read, or what is looked up, in the type of tables.
enum class SetAs { Text, Reference };

struct Section {
    std::string heading;
    std::vector<SectionPart> parts;
    std::string anchor{};  ///< where its page is named elsewhere
    SetAs set_as = SetAs::Text;
};

/// One panel of small multiples: its plot, and a small table beside it.
struct Panel {
    std::string anchor;       ///< link destination
    std::string name, title;  ///< "Pitch EBX", "deviation"
    DeviationPlot plot;
    Verdict verdict;
    std::string table_title;  ///< "Range / µrad"
    std::vector<std::pair<Text, Text>> rows;  ///< what a number is, and the number; empty: in the block's sections
    std::vector<Text> value;  ///< in place of such rows: the value with its U, and what it is
    std::vector<Text> notes;
};

/// Angles or straightness of one axis and state, on one scale.
struct Panels {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::vector<Panel> panels;
    bool bands = false, excluded = false, runs = false;
    std::size_t runs_per_direction = 0;
    std::vector<Text> notes;
    std::vector<Section> sections;  ///< tables and texts below the panels
    bool additional = false;        ///< beside results that have pages of their own: drawn lower
};

/// The mean of one state less that of the other, where both have one.
struct StateDifference {
    std::vector<std::pair<Position, Deviation>> curve;  ///< rising; empty: no place has a mean in both
    std::size_t largest = 0;                            ///< place in `curve`: the largest size
    std::optional<Deviation> U;                         ///< of the change of the value that the pair is about
    Text words;                                         ///< at the largest: "+1.3, within U"
    std::string alternative;
};

/// As found beside as left, one quantity, on one scale, and the difference of both.
struct StatePair {
    std::string name;  ///< "Positioning EXX / µm"
    DeviationPlot first, second;
    StateDifference difference;
    Verdict verdict;   ///< its word says how it was before: "Inside, was outside"
    std::vector<std::pair<Text, Text>> rows;
};

/// A result that no pair is about.
struct ChangeRow {
    Text name, first, second, change, U, limit;
    Verdict first_verdict, second_verdict;
    Text words;
};

struct States {
    Opening opening;
    std::string figure_number;
    std::string first_title, second_title, difference_title;
    Text caption;
    std::vector<StatePair> pairs;
    std::string first_head, second_head;
    std::vector<ChangeRow> changes;
    std::vector<Text> notes;
    std::vector<Section> sections;  ///< numbers of the first state that no other page has
};

/// One target of the readings table: one or two lines (a direction each).
struct ReadingLine {
    Approach approach;
    std::vector<Text> readings;
    Text mean, s;
};

struct ReadingTarget {
    std::string number, position;
    std::vector<ReadingLine> lines;
    Text reversal, repeatability;
    std::vector<Text> notes;
};

/// One run each way: its curves stand on the rows of the readings.
struct OneRun {
    DeviationPlot plot;
    std::vector<Text> means;                             ///< of both approaches, at each target
    std::array<Text, 4> largest, smallest;               ///< of the runs, positive first, their mean, and the reversal value by its size
    std::vector<std::pair<std::string, Text>> measured;  ///< what the bracket of that symbol measures: "45.9"
    Text not_evaluated;                                  ///< what one run each way cannot give
};

/// The closing line of a readings table.
struct ReadingExtremes {
    std::array<Text, 2> readings;  ///< "10.9, −12.2": largest and smallest used, positive approach first; empty: none in that approach
    Text measured;                 ///< what the series gives, in the unit of the means: "A 9.5  E 6.6"; empty: nothing is evaluated
};

struct Readings {
    Opening opening;
    std::string axis;                                 ///< name of the axis that moved: "X", "C"
    std::string unit, evaluated_unit, position_unit;  ///< symbols: of single readings, of means and s, of places
    std::vector<std::string> run_heads;
    std::vector<ReadingTarget> targets;
    bool repeatability_column = true, reversal_column = true;
    bool extremes_are_strong = false;  ///< the largest and smallest of the evaluated columns are in strong type
    std::optional<OneRun> one_run;     ///< of positioning with one run each way
    ReadingExtremes extremes;
};

struct Sections {
    Opening opening;
    std::vector<Section> sections;
    std::vector<Signature> signatures;
    bool ends_report = false;         ///< an end mark follows
};

/// What a table holds against the error along a stretch of the axis: its correction with the sign turned.
struct CorrectionStep {
    Position from, to;
    Deviation level;
};

/// One compensation table with what it predicts, or the reasons why there is none.
struct Compensation {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::optional<DeviationPlot> measured;            ///< the means that the table was made of, under its steps
    std::vector<std::vector<CorrectionStep>> steps;   ///< of each table, rising
    std::optional<DeviationPlot> predicted;           ///< means with the table in use. None: refused
    std::vector<std::pair<Position, Deviation>> later;  ///< mean measured in the later state; empty: there is none
    std::string measured_title, predicted_title, later_words;
    PlainTable values;                                ///< in the margin: as measured, predicted, measured later
    std::vector<Text> values_notes;
    std::vector<Section> sections;                    ///< the reasons of a refusal
    std::string points_heading;
    PlainTable points;                                ///< rising; the page sets it in columns side by side
    std::vector<Text> points_notes;                   ///< sign, definition and a worked line
    std::string cautions_heading;
    std::vector<Text> cautions;                       ///< beside the points
};

/// What the surroundings did while the readings were taken, and what is known of it.
struct EnvironmentOpening {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::optional<RecordPlot> record;  ///< none: too few samples with a time
    std::vector<Section> sections;
};

/// What the values are worth: each with its U, what that is made of, the decision rule drawn, a second opinion where asked for.
struct Uncertainty {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::vector<UncertaintyRow> rows;
    std::string rows_anchor;  ///< where other pages send a reader for what random variation adds
    std::vector<Text> rows_notes;
    std::vector<ContributorTable> contributors;
    std::vector<Text> contributors_notes;
    std::optional<DecisionPicture> decision;
    std::string rule_heading;
    std::vector<OutcomeRow> outcomes;
    std::vector<Section> sections;
};

/// Two axes and the angle between their positive directions. The lean is drawn far too large; only its side is to scale.
struct SquarenessDrawing {
    std::string id, first, second;  ///< "X" points right, "Y" up
    using Lean = report::Lean;
    Lean lean;
    Text value;  ///< at the lean: "EC0Y = +14.8 µrad"
    Text angle;  ///< in the quadrant: "90° + 14.8 µrad"
    std::string alternative;
};

/// Squareness of two axes, or the reason why it is not evaluated.
struct SquarenessOpening {
    Opening opening;
    Verdict verdict;
    std::string figure_number;
    Text caption;
    std::optional<SquarenessDrawing> drawing;  ///< none: not evaluated
    std::string margin_heading;
    std::vector<Text> margin;
    std::vector<Section> sections;
};

/// A rotary series round the circle, beside its linear form.
struct PolarOpening {
    Opening opening;
    std::string figure_number;
    Text caption;
    DeviationPlot plot;
    std::size_t runs_per_direction = 0;
    std::vector<Section> sections;
};

/// Where the measurement lines ran in the machine, and how they were set up.
struct LinesOpening {
    Opening opening;
    std::string figure_number;
    Text caption;
    LineDrawing drawing;
    std::vector<std::pair<std::string, std::vector<Text>>> margin;  ///< of each line: its name, and what is known of it
    std::vector<Section> sections;
};

using Block = std::variant<Answer, PositioningOpening, PolarOpening, Panels, SquarenessOpening, States, Readings, Sections, Compensation,
                           EnvironmentOpening, LinesOpening, Uncertainty>;

/// What stands on every page.
struct RunningText {
    std::string first_line;  ///< of the laboratory, above the head of the first page; may be empty
    std::string head_left;   ///< "Calibration report K-3107, revision 2"
    std::string foot_left;   ///< program version and, later, the fingerprint
    std::string foot_right;  ///< data notice, draft
    std::string draft;       ///< "Draft" where the document says so; on every page
    std::optional<document::Picture> logo;  ///< on the first page
    std::optional<Issuer> issuer;           ///< in place of the head of the first page; none: that page has the head of all
};

/// Head and foot as a text, for a page that has no room to say them whole.
Sections in_full(const RunningText& running);
/// The same, a line each.
std::vector<Text> lines_in_full(const RunningText& running);

struct Model {
    RunningText running;
    std::vector<Block> blocks;
    std::string title, author, subject;  ///< metadata of the file
    std::string created;                 ///< a date or date-time of ISO 8601, as the document writes it; may be empty
};

}  // namespace wayfolio::report
