#pragma once
#include "document/logo_picture.hpp"
#include "report/model/deviation_plot.hpp"
#include "report/model/record_plot.hpp"
#include "report/model/verdict.hpp"

#include <variant>

/// What the report says: ordered blocks with final words. Knows nothing of points, fonts or colours. What is drawn to scale stands as
/// quantities with their units (plots, curves, pictures); what is read (leads, tables, values in the margin) stands as text, its numbers
/// printed: units, decimals and the decimal mark were chosen where the words were made. Plain values that own all they hold.
namespace wayfolio::report {

struct Fact {
    std::string name;
    std::vector<Text> lines;
};

/// Heading, one-sentence lead and a short text: how every block opens.
struct Opening {
    std::string label;   ///< also the bookmark
    std::string anchor;  ///< link destination
    Text lead, body;
};

/// A small drawing of the mean along the axis: one per row of the answer page.
struct QuantityRow {
    std::string name, detail;
    std::vector<std::pair<Position, Deviation>> curve;  ///< bidirectional mean (one direction if only one was measured), as drawn
    Text result, limit;
    std::optional<double> value_of_limit;  ///< value / limit, for the gauge; nothing without either
    std::optional<double> U_of_limit;      ///< U / limit
    std::string curve_words, gauge_words;  ///< what curve and gauge show, for those who hear it; empty where nothing is drawn
    Verdict verdict;
    std::string destination;  ///< anchor of its opening
};

struct Signature {
    std::string role, name;
};

/// What makes the verdicts worth less than they say, in one sentence without its full stop.
struct Weakness {
    Text sentence;
    std::string destination;  ///< anchor of where it is told in full
};

/// The first page: the answer for the person who pays.
struct Answer {
    Opening opening;
    std::vector<Weakness> weaknesses;
    std::vector<Fact> facts;
    std::string curve_title;  ///< "Mean along X"
    std::vector<QuantityRow> rows;
    std::vector<Text> rows_note;
    std::vector<Text> what_failed;
    std::vector<Text> what_next;
    std::vector<Text> cautions;
    std::vector<Signature> signatures;
    std::vector<Text> issue_note;
    bool signed_at_end = false;  ///< a closing block carries the signatures too
};

/// A value beside the figure: symbol, number, and what it is.
struct MarginValue {
    std::string symbol;
    Text number;
    std::vector<Text> notes;
};

struct ParameterRow {
    Text name;
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
enum class Cells { Words, Numbers };
inline constexpr Cells numbers = Cells::Numbers;  // short, as tables are written down in rows
struct TableColumn {
    std::string head;
    double width;  ///< share of the width, all together 1; takes no part where the page sets the width
    Cells cells = Cells::Words;
};
struct PlainTable {
    std::vector<TableColumn> columns;
    std::vector<std::vector<Text>> rows = {};  ///< each as long as `columns`
};
using SectionPart = std::variant<Paragraph, BulletList, FactTable, PlainTable>;

struct Section {
    std::string heading;
    std::vector<SectionPart> parts;
    std::string anchor{};  ///< where its page is named elsewhere
};

/// One panel of small multiples: its plot, and a small table beside it.
struct Panel {
    std::string anchor;       ///< link destination
    std::string name, title;  ///< "Pitch EBX", "deviation"
    DeviationPlot plot;
    Verdict verdict;
    std::string table_title;  ///< "Range / µrad"
    std::vector<std::pair<Text, Text>> rows;  ///< what a number is, and the number
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
};

/// As found beside as left, one quantity, on one scale, with the change below.
struct StatePair {
    std::string name;  ///< "Positioning EXX"
    DeviationPlot first, second;
    Verdict verdict;
    std::vector<std::pair<Text, Text>> rows;
    std::string first_number, second_number;  ///< at the brackets: the values without their U, which `rows` state
};

struct ChangeRow {
    Text name, first, second, change, U, limit;
    Verdict first_verdict, second_verdict;
    Text words;
};

struct States {
    Opening opening;
    std::string figure_number;
    std::string first_title, second_title;
    Text caption;
    std::vector<StatePair> pairs;
    std::string first_head, second_head;
    std::vector<ChangeRow> changes;
    std::vector<Text> notes;
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

struct Readings {
    Opening opening;
    std::string axis;                                 ///< name of the axis that moved: "X", "C"
    std::string unit, evaluated_unit, position_unit;  ///< symbols: of single readings, of means and s, of places
    std::vector<std::string> run_heads;
    std::vector<ReadingTarget> targets;
    bool repeatability_column = true, reversal_column = true;
    bool extremes_are_strong = false;  ///< the largest and smallest of the evaluated columns are in strong type
};

struct Sections {
    Opening opening;
    std::vector<Section> sections;
    std::vector<Signature> signatures;
    bool ends_report = false;         ///< an end mark follows
};

/// One compensation table with what it predicts, or the reasons why there is none.
struct Compensation {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::optional<DeviationPlot> predicted;  ///< means with the table in use, over those as measured. None: refused
    std::vector<MarginValue> values;         ///< in the order of the brackets from outside in
    std::vector<Section> sections;           ///< predicted parameters, how the table is used, cautions; or the reasons
    std::string points_heading;
    PlainTable points;                       ///< rising; the page sets it in columns side by side
};

/// What the surroundings did while the readings were taken, and what is known of it.
struct EnvironmentOpening {
    Opening opening;
    std::string figure_number;
    Text caption;
    std::optional<RecordPlot> record;  ///< none: too few samples with a time
    std::vector<Section> sections;
};

/// A contributor: its name with what it is made of, what it brings, and how much of the variance that is.
struct BudgetRow {
    Text name, made_of, contribution, share, basis;
    double share_of_variance;  ///< 0 to 1
};

/// The budget of one parameter, largest share first.
struct Budget {
    std::string heading, key;
    Text contribution_head;
    std::vector<BudgetRow> rows;
    Text combined, expanded_name, expanded, coverage;
    std::vector<Text> notes;
};

/// A decision rule drawn on the scale of one limit. All numbers in the unit that its words show.
struct DecisionPicture {
    struct Zone {
        double from, to;
        bool guard;  ///< hatched: within the guard band
        Standing standing;
        Text word;  ///< empty: belongs to the zone before it
    };
    double low, high, value, limit;
    std::optional<double> U;
    Text value_words, U_words, limit_words;
    std::vector<Zone> zones;
    std::vector<std::pair<double, std::string>> edges;  ///< of the guard bands
    Text width_words;                                   ///< "w = U"; empty where there is no guard band
    Text over_words;                                    ///< of the band over the limit, where scatter makes that one wider; else empty
    Verdict verdict;
    std::vector<Text> margins;  ///< margin, margin after U, probability of conformity
    std::string alternative;
};

/// What the values are worth: budgets, the decision rule drawn, a second opinion where asked for.
struct Uncertainty {
    Opening opening;
    std::vector<Budget> budgets;  ///< the first stands with the lead
    std::string figure_number;
    std::optional<DecisionPicture> decision;
    std::string rule_heading;
    Text rule_explained;
    std::vector<Section> sections;
};

/// Two axes and the angle between their positive directions. The lean is drawn far too large; only its side is to scale.
struct SquarenessDrawing {
    std::string id, first, second;  ///< "X" points right, "Y" up
    enum class Lean { Open, None, Closed } lean;  ///< Open: more than 90 degrees between the positive directions
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

using Block = std::variant<Answer, PositioningOpening, PolarOpening, Panels, SquarenessOpening, States, Readings, Sections, Compensation,
                           EnvironmentOpening, Uncertainty>;

/// What stands on every page.
struct RunningText {
    std::string first_line;  ///< of the laboratory, above the head of the first page; may be empty
    std::string head_left;   ///< "Calibration report K-3107, revision 2"
    std::string foot_left;   ///< program version and, later, the fingerprint
    std::string foot_right;  ///< data notice, draft
    std::string draft;       ///< "Draft" where the document says so; on every page
    std::optional<document::Picture> logo;  ///< on the first page
};

/// Head and foot as a text, for a page that has no room to say them whole.
Sections in_full(const RunningText& running);

struct Model {
    RunningText running;
    std::vector<Block> blocks;
    std::string title, author, subject;  ///< metadata of the file
    std::string created;                 ///< a date or date-time of ISO 8601, as the document writes it; may be empty
};

}  // namespace wayfolio::report
