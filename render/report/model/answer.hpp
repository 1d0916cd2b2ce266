#pragma once
#include "report/model/deviation_plot.hpp"
#include "report/model/verdict.hpp"

#include <cstddef>
#include <map>
#include <optional>

/// What the first page says: who issued it, the answer in one sentence, and a row for every quantity of every state.
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

/// A parameter along its axis in small: what it is the range or the largest of.
struct RowCurve {
    enum class Form { Band, Means, Mean, Stems };
    using Points = std::vector<std::pair<Position, Deviation>>;
    Form form = Form::Mean;
    Points first, second;  ///< edges of the band, upper first; means of the positive and the negative approach; else the first alone
    Points settings;       ///< where the targets that set the parameter stand on it
    std::string scale;     ///< curves of one word and one unit are drawn to one scale: "" of deviations, "R", "B"

    [[nodiscard]] bool empty() const { return first.empty() && second.empty(); }
};

/// An axis that curves stand over.
struct RowAxis {
    std::string title;  ///< "X / mm"
    PositionUnit unit;
    Position from, to;
};

/// Two axes that are more or less than square to each other, drawn far too large: only the side is right.
enum class Lean { Open, None, Closed };  ///< Open: more than 90 degrees between the positive directions

/// One value with its limit, or without one.
struct QuantityRow {
    Text name;
    std::string detail;                ///< under the name
    Text short_name;                   ///< of a row of one line
    std::optional<std::size_t> axis;   ///< place in Answer::axes; none: the value is of two axes
    RowCurve curve;
    std::optional<Lean> lean;          ///< of a squareness, in place of a curve
    std::string no_curve;              ///< why nothing is drawn, where a reader would miss it
    Text result, result_with_unit;     ///< "26.9 ± 7.6", "26.9 ± 7.6 µm"
    std::string unit;                  ///< "µm"
    Text limit;                        ///< "limit 40 µm"; empty: none
    std::optional<double> value_of_limit;  ///< value / limit, for the gauge; nothing without either
    std::optional<double> U_of_limit;      ///< U / limit
    std::optional<double> probability;     ///< that the true value keeps the limit; nothing without U
    std::string probability_words;         ///< "91 %", "> 99 %"
    std::string curve_words, gauge_words;  ///< what curve and gauge show, for those who hear it; empty where nothing is drawn
    Verdict verdict;
    std::string destination;  ///< anchor of its opening
};

/// Rows under a heading of their own, in grey: they answer nothing.
struct QuietRows {
    Text heading;  ///< "Superseded, as found 2026-06-15"
    std::vector<QuantityRow> rows;
};

struct Signature {
    std::string role, name;
};

/// What makes the verdicts worth less than they say, in one sentence without its full stop.
struct Weakness {
    Text sentence;
    std::string destination;  ///< anchor of where it is told in full
};

/// What a page that stands alone has no room for.
struct LeftOut {
    std::map<Standing, std::size_t> rows;
    std::size_t quiet = 0, steps = 0, facts = 0, notes = 0, paragraphs = 0, weaknesses = 0, issues = 0, signatures = 0;
};
/// "Not on this page: 7 limits, all inside; 12 values without a limit or superseded. All are kept: see the report."; empty: nothing is.
Text words_of(const LeftOut& left);

/// The first page: the answer for the person who pays.
struct Answer {
    Opening opening;
    std::vector<Weakness> weaknesses;
    std::vector<Fact> facts;
    std::vector<RowAxis> axes;
    std::vector<QuantityRow> rows;  ///< one for each limit; where there is none at all, one for each quantity
    std::vector<QuietRows> quiet;   ///< what has no limit, then what later values supersede
    std::vector<Text> rows_note;
    std::vector<Text> shortened;    ///< what head and foot say in full, where they are cut
    std::vector<Text> what_next;
    std::vector<Text> cautions;
    std::vector<Signature> signatures;
    std::vector<Text> issue_note;
    bool below_issuer = false;   ///< the issuer stands above
    bool signed_at_end = false;  ///< a closing block carries the signatures too
    bool stands_alone = false;   ///< nothing else is issued: what one page does not hold is counted on it
};

/// Who answers for the report, at the head of its first page.
struct Issuer {
    std::string name;
    std::vector<std::string> lines;         ///< address, accreditation
    std::vector<std::string> traceability;  ///< certificates of the instruments, in fewer and fewer words
    std::string report;              ///< "Calibration report K-3107"
    std::vector<std::string> edition;  ///< "Revision 2 of 2026-06-24", "replaces revision 1"
};

}  // namespace wayfolio::report
