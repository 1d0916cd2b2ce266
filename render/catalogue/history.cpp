#include "catalogue/history.hpp"

#include "units/deviation.hpp"
#include "units/readable_unit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace wayfolio::catalogue {
namespace {

using database::Database;
using database::Statement;

/// A result as it stands in the index, with the visit it belongs to.
struct Found {
    HistoryPoint point;
    std::string error, parameter, axis, reference_line, unit;
    std::int64_t visit;
};

std::string visit_name(const ListedVisit& visit) {
    return fmt::format("{}, revision {} ({})", visit.job.empty() ? "no job number" : visit.job, visit.revision, visit.folder);
}

/// Each job counts once: by its latest revision, and a copy of a record not again. A visit without a date has no place in time.
std::vector<const ListedVisit*> visits_that_count(const std::vector<ListedVisit>& visits, History& history) {
    std::vector<const ListedVisit*> kept;
    std::set<std::string> seen;
    for (const ListedVisit& visit : visits) {
        const std::string same = visit.job.empty() ? visit.fingerprint : fmt::format("{}\n{}\n{}", visit.job, visit.revision, visit.day);
        if (visit.replaced) history.left_out.push_back(visit_name(visit) + ": replaced by a later revision");
        else if (visit.day.empty()) history.left_out.push_back(visit_name(visit) + ": has no date");
        else if (!seen.insert(same).second) history.left_out.push_back(visit_name(visit) + ": another record holds the same job");
        else kept.push_back(&visit);
    }
    return kept;
}

std::vector<Found> results_of(const Database& database, const ListedVisit& visit) {
    Statement rows(database,
                   "SELECT series, error, axis, state, parameter, unit, value, expanded, lim, outcome, reason, reference_line, low, high "
                   "FROM result WHERE visit = ? ORDER BY rowid");
    rows.bind(visit.id);
    std::vector<Found> found;
    while (rows.next())
        found.push_back({.point = {.day = visit.day,
                                   .state = rows.text(3),
                                   .series = rows.text(0),
                                   .job = visit.job,
                                   .folder = visit.folder,
                                   .revision = visit.revision,
                                   .value = rows.number(6),
                                   .expanded = rows.number(7),
                                   .limit = rows.number(8),
                                   .outcome = rows.text(9),
                                   .reason = rows.text(10),
                                   .apart = {},
                                   .low = rows.number(12),
                                   .high = rows.number(13)},
                         .error = rows.text(1),
                         .parameter = rows.text(4),
                         .axis = rows.text(2),
                         .reference_line = rows.text(11),
                         .unit = rows.text(5),
                         .visit = visit.id});
    return found;
}

using SeriesOfState = std::tuple<std::int64_t, std::string, std::string, std::string, std::string>;

/// Errors that one visit measured in several series of one state: only the series' ids tell those apart.
std::set<std::string> errors_by_series(const std::vector<Found>& all) {
    std::map<SeriesOfState, std::set<std::string>> series;
    std::set<std::string> several;
    for (const Found& one : all) {
        auto& ids = series[{one.visit, one.error, one.point.state, one.parameter, one.reference_line}];
        ids.insert(one.point.series);
        if (ids.size() > 1) several.insert(one.error);
    }
    return several;
}

/// Straightness about another line is another parameter. Where a value was not evaluated nothing tells the line: it stands with each.
bool belongs(const HistoryLine& line, const Found& one, const std::string& series) {
    return line.error == one.error && line.parameter == one.parameter && line.series == series &&
           (line.reference_line == one.reference_line || (!one.point.value && one.reference_line.empty()));
}

/// One series under several limits is one value: it is shown against the strictest of them.
bool merged(std::vector<HistoryPoint>& points, const HistoryPoint& next) {
    for (HistoryPoint& there : points) {
        if (there.folder != next.folder || there.series != next.series || there.value != next.value) continue;
        if (next.limit && (!there.limit || *next.limit < *there.limit)) there = next;
        return true;
    }
    return false;
}

/// In the unit of the line; a value of another kind (an angle among lengths) stands apart without number.
void convert(HistoryPoint& point, const std::string& from, const std::string& to) {
    if (from == to || from.empty()) return;
    const auto was = units::deviation_unit(from), is = units::deviation_unit(to);
    if (!was || !is || was->dimension != is->dimension) {
        point.apart = fmt::format("given in {}, the latest in {}", from, to);
        point.value = point.expanded = point.limit = std::nullopt;
        return;
    }
    for (auto* number : {&point.value, &point.expanded, &point.limit})
        if (*number) *number = units::Deviation(**number, *was).in(*is);
}

HistoryLine line_of(const Found& one, const std::string& series) {
    return {.error = one.error,
            .parameter = one.parameter,
            .axis = one.axis,
            .reference_line = one.reference_line,
            .unit = {},
            .series = series,
            .vertical = {},
            .points = {},
            .drift = evaluate::NotEvaluated{},
            .warnings = {},
            .notes = {}};
}

/// The unit of the latest, or that decimal multiple of it in which reports show such values.
std::string unit_of(const std::vector<const Found*>& members) {
    std::string latest;
    for (const Found* one : members)
        if (!one->unit.empty()) latest = one->unit;
    const auto own = units::deviation_unit(latest);
    if (!own) return latest;
    std::vector<units::Deviation> uncertainties, values;
    for (const Found* one : members) {
        const auto unit = units::deviation_unit(one->unit);
        if (!unit || unit->dimension != own->dimension) continue;
        if (one->point.expanded) uncertainties.emplace_back(*one->point.expanded, *unit);
        if (one->point.value) values.push_back(units::abs(units::Deviation(*one->point.value, *unit)));
    }
    const auto shown = units::readable_unit(*own, uncertainties.empty() ? values : uncertainties);
    return units::deviation_unit(shown.spelling) ? std::string(shown.spelling) : latest;
}

/// The values of a line in its unit, by day; of one day those as found before those as left.
void fill(HistoryLine& line, const std::vector<const Found*>& members) {
    line.unit = unit_of(members);
    for (const Found* one : members) {
        HistoryPoint point = one->point;
        convert(point, one->unit, line.unit);
        if (!merged(line.points, point)) line.points.push_back(std::move(point));
    }
    std::ranges::stable_sort(line.points, {}, [](const HistoryPoint& point) { return std::pair(point.day, is_as_left(point)); });
}

std::vector<HistoryLine> lines_of(const std::vector<Found>& all) {
    const std::set<std::string> by_series = errors_by_series(all);
    const auto series_of = [&](const Found& one) { return by_series.contains(one.error) ? one.point.series : std::string(); };
    std::vector<HistoryLine> lines;
    // Values first: what was not evaluated joins the lines that there are.
    for (const bool evaluated : {true, false})
        for (const Found& one : all) {
            const std::string series = series_of(one);
            if (one.point.value.has_value() == evaluated &&
                std::ranges::none_of(lines, [&](const HistoryLine& line) { return belongs(line, one, series); }))
                lines.push_back(line_of(one, series));
        }
    for (HistoryLine& line : lines) {
        std::vector<const Found*> members;
        for (const Found& one : all)
            if (belongs(line, one, series_of(one))) members.push_back(&one);
        fill(line, members);
    }
    return lines;
}

}  // namespace

bool is_as_left(const HistoryPoint& point) { return point.state == "as-left"; }

bool HistoryLine::has_limit() const { return limit().has_value(); }

const HistoryPoint* HistoryLine::latest() const {
    const auto found = std::find_if(points.rbegin(), points.rend(), [](const HistoryPoint& point) { return point.counts(); });
    return found == points.rend() ? nullptr : &*found;
}

std::optional<double> HistoryLine::limit() const {
    const auto found = std::find_if(points.rbegin(), points.rend(), [](const HistoryPoint& point) { return point.limit.has_value(); });
    return found == points.rend() ? std::nullopt : found->limit;
}

History history_of(const Database& database, const std::vector<ListedVisit>& visits, const std::string& axis,
                   const std::string& parameter) {
    History history;
    const std::vector<const ListedVisit*> counted = visits_that_count(visits, history);
    history.visits = counted.size();
    std::vector<Found> all;
    std::string vertical;
    for (const ListedVisit* visit : counted) {
        for (Found& one : results_of(database, *visit))
            if ((axis.empty() || one.axis == axis) && (parameter.empty() || one.parameter == parameter)) all.push_back(std::move(one));
        if (!visit->notice.empty() && std::ranges::find(history.notices, visit->notice) == history.notices.end())
            history.notices.push_back(visit->notice);
        history.machine = visit->machine;
        history.serial = visit->serial;
        history.customer = visit->customer;
        if (!visit->vertical.empty()) vertical = visit->vertical;
    }
    if (!counted.empty()) history.from = counted.front()->day, history.to = counted.back()->day;
    history.lines = lines_of(all);
    for (HistoryLine& line : history.lines) {
        line.vertical = vertical;
        judge(line);
    }
    return history;
}

std::vector<const HistoryLine*> lines_of_interest(const History& history) {
    const bool any = std::ranges::any_of(history.lines, &HistoryLine::has_limit);
    std::vector<const HistoryLine*> lines;
    for (const HistoryLine& line : history.lines)
        if (!any || line.has_limit()) lines.push_back(&line);
    return lines;
}

}  // namespace wayfolio::catalogue
