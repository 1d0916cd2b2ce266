#include "catalogue/query.hpp"
#include "evaluate/written/words.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::catalogue {
namespace {

using database::Database;
using database::Statement;

struct Condition {
    std::string sql;
    std::vector<std::string> values;
};

Condition condition_of(const Query& query) {
    Condition condition{" WHERE v.fault = ''", {}};
    const auto add = [&](const std::string& value, const char* sql) {
        if (value.empty()) return;
        condition.sql += std::string(" AND ") + sql;
        condition.values.push_back(value);
    };
    add(query.machine, "instr(lower(v.machine), lower(?)) > 0");
    add(query.customer, "instr(lower(v.customer), lower(?)) > 0");
    add(query.serial, "v.serial = ?");
    add(query.job, "v.job = ?");
    add(query.from, "v.day >= ?");
    add(query.to, "v.day <> '' AND v.day <= ?");
    add(query.instrument, "v.id IN (SELECT i.visit FROM instrument AS i WHERE i.serial = ?)");
    add(query.fingerprint, "instr(v.fingerprint, 'sha256:' || ?) = 1");
    // A quantity that a later visit measured is due no more; the others of its axis are.
    add(query.due_by,
        "v.due <> '' AND v.due <= ? AND v.replaced = 0 AND EXISTS (SELECT 1 FROM result AS r WHERE r.visit = v.id AND r.error NOT IN "
        "(SELECT l.error FROM visit AS w JOIN result AS l ON l.visit = w.id WHERE w.serial = v.serial AND w.serial <> '' AND w.fault = '' "
        "AND w.replaced = 0 AND w.day > v.day))");
    if (query.axis.empty() && query.verdict.empty()) return condition;
    condition.sql += " AND v.id IN (SELECT q.visit FROM result AS q WHERE 1";
    add(query.axis, "q.axis = ?");
    add(query.verdict, "q.answers AND q.outcome = ?");
    condition.sql += ")";
    return condition;
}

}  // namespace

std::vector<ListedVisit> find_visits(const Database& database, const Query& query) {
    const Condition condition = condition_of(query);
    const std::string order = query.due_by.empty() ? " ORDER BY v.day" : " ORDER BY v.due, v.day";
    Statement found(database,
                    "SELECT v.id, v.folder, v.job, v.title, v.customer, v.machine, v.serial, v.day, v.fingerprint, v.notice, v.revision, "
                    "v.replaced, v.verdict, v.found, v.vertical, v.due FROM visit AS v" +
                        condition.sql + order + ", v.job, v.revision, v.folder");
    for (const std::string& value : condition.values) found.bind(value);
    std::vector<ListedVisit> visits;
    while (found.next())
        visits.push_back({.id = found.whole(0),
                          .folder = found.text(1),
                          .job = found.text(2),
                          .title = found.text(3),
                          .customer = found.text(4),
                          .machine = found.text(5),
                          .serial = found.text(6),
                          .day = found.text(7),
                          .fingerprint = found.text(8),
                          .notice = found.text(9),
                          .vertical = found.text(14),
                          .revision = static_cast<int>(found.whole(10)),
                          .replaced = found.whole(11) != 0,
                          .verdict = found.text(12),
                          .found = found.text(13),
                          .due = found.text(15)});
    return visits;
}

evaluate::Standing standing_of(std::string_view outcome, const std::optional<double>& value, const std::optional<double>& limit) {
    const auto known = evaluate::outcome_called(outcome);
    if (!known) return evaluate::Standing::NoLimit;
    constexpr double rounding = 1e-10;  // as evaluate::standing_of
    return evaluate::standing_of(*known, value && limit && std::abs(*value) <= *limit * (1 + rounding));
}

std::string listing_text(const std::vector<ListedVisit>& visits) {
    std::string text;
    for (const ListedVisit& visit : visits)
        text += fmt::format("{:10}  {:22}  {}  {}{}\n            {}{}{}\n", visit.day.empty() ? "no date" : input::printable(visit.day),
                            input::printable(visit.verdict),
                            input::printable(fmt::format("{}, revision {}", visit.job.empty() ? "no number" : visit.job, visit.revision)),
                            input::printable(fmt::format("{}; serial {}; {}", visit.machine.empty() ? "machine not stated" : visit.machine,
                                                         visit.serial.empty() ? "not stated" : visit.serial,
                                                         visit.customer.empty() ? "customer not stated" : visit.customer)),
                            visit.replaced ? "  [replaced]" : "",
                            visit.found.empty() ? "" : fmt::format("as found: {:12}  ", input::printable(visit.found)),
                            visit.due.empty() ? "" : fmt::format("due {}  ", input::printable(visit.due)), input::printable(visit.folder));
    return text + fmt::format("{} {}\n", visits.size(), visits.size() == 1 ? "visit" : "visits");
}

}  // namespace wayfolio::catalogue
