#pragma once
#include "catalogue/query.hpp"
#include "evaluate/evaluated.hpp"
#include "evaluate/numbers/least_squares.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What the visits to one machine said, one parameter after the other.
namespace wayfolio::catalogue {

/// What one visit said about one parameter; numbers in the unit of the line.
struct HistoryPoint {
    std::string day, state, series, job, folder;
    int revision;
    std::optional<double> value, expanded, limit;
    std::string outcome, reason;
    std::string apart;  ///< why its value is not held against the others; empty where it is
    std::optional<double> low, high;  ///< first and last target
    [[nodiscard]] bool counts() const { return value && apart.empty(); }
};

/// A straight line through the values by least squares over time.
struct Drift {
    evaluate::LinearTrend fit;  ///< x in years of 365.25 days since `from`, y in the line's unit
    std::vector<std::size_t> points;  ///< places in the line's points, rising in time
    std::string from, to;             ///< days of the first and the last of them
    bool since_adjustment;            ///< the first is the value as left by the latest adjustment
    bool significant;                 ///< the slope differs from zero at 5 %
    double horizon;                   ///< years after `to` within which a limit is looked for
    std::optional<double> reached,
        value_reached;  ///< years after `to` until the line and U, and the line itself, are at the limit, within the horizon
};

/// What the user should look at; never a verdict.
struct HistoryWarning {
    enum class Kind { BeyondLimit, AtLimitWithU, TowardsLimit } kind;
    std::string text;
};

/// One parameter of one error over the visits, in order of time.
struct HistoryLine {
    std::string error, parameter, axis, reference_line, unit;
    std::string series;  ///< where one visit has several series of the error: which one; else empty
    std::string vertical;  ///< the machine's vertical axis, which tells pitch from yaw; empty where no visit says it
    std::vector<HistoryPoint> points;
    evaluate::Evaluated<Drift> drift;
    std::vector<HistoryWarning> warnings;
    std::vector<std::string> notes;  ///< what a reader of the numbers must know
    [[nodiscard]] bool has_limit() const;
    /// The latest value that counts; nothing where none does.
    [[nodiscard]] const HistoryPoint* latest() const;
    /// The limit of the latest visit that has one.
    [[nodiscard]] std::optional<double> limit() const;
};

struct History {
    std::string machine, serial, customer;
    std::vector<std::string> notices;   ///< that data are invented, say
    std::vector<std::string> left_out;  ///< visits that do not count, each with the reason
    std::size_t visits = 0;
    std::string from, to;
    std::vector<HistoryLine> lines;
};

/// The Julian year, in which slopes are given.
inline constexpr double days_of_year = 365.25;

/// @param visits of one machine, as find_visits() gives them; `axis` and `parameter`: only these, where not empty
History history_of(const database::Database& database, const std::vector<ListedVisit>& visits, const std::string& axis,
                   const std::string& parameter);

/// Trend, warnings and notes of a line whose points are complete.
void judge(HistoryLine& line);

/// Whether its values may be negative: what may not (a range) nears its limit by growing only.
bool has_sign(const HistoryLine& line);

/// "as found" and all words but "as left" say how the machine came.
bool is_as_left(const HistoryPoint& point);

/// The lines that a reader looks for first: those with a limit, or all where none has one.
std::vector<const HistoryLine*> lines_of_interest(const History& history);

/// As lines for a person; as JSON for other programs ("wayfolio-history"), as history_schema() describes it.
std::string history_text(const History& history);
std::string history_json(const History& history);

/// JSON Schema (draft 7) of the JSON of a history.
std::string_view history_schema();

}  // namespace wayfolio::catalogue
