#pragma once
#include "database/database.hpp"
#include "evaluate/standing.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::catalogue {

/// What is looked for; an empty text asks for nothing. Upper and lower case of A to Z count as equal.
struct Query {
    std::string machine, customer;  ///< any part of it
    std::string serial, job, axis;  ///< the whole
    std::string instrument;         ///< the serial number of one that was used
    std::string fingerprint;        ///< its first hexadecimal digits, in lower case
    std::string from, to;           ///< days, YYYY-MM-DD, both included
    std::string due_by{};           ///< a day: what is to be measured again until then, as agreed, and was not
    std::string verdict;            ///< "pass", "fail" ...: a result of the machine as left (of `axis`, where given) has that outcome
};

struct ListedVisit {
    std::int64_t id;
    std::string folder, job, title, customer, machine, serial, day, fingerprint, notice, vertical;
    int revision;
    bool replaced;
    std::string verdict;  ///< the gravest word of its results as left, "no limit set" where none is
    std::string found;    ///< the same as found; empty where the visit did not measure both
    std::string due;      ///< the day until which the next measurement was agreed; empty where none was
};

/// Visits that fit, by day, job and revision. Damaged ones are never among them.
std::vector<ListedVisit> find_visits(const database::Database& database, const Query& query);

/// As lines for a person; as JSON for other programs ("wayfolio-catalogue"), as catalogue_schema() describes it.
std::string listing_text(const std::vector<ListedVisit>& visits);
/// @param damaged records that were passed over, each in one line
std::string listing_json(const std::vector<ListedVisit>& visits, const std::vector<std::string>& damaged);

/// JSON Schema (draft 7) of the JSON of a listing.
std::string_view catalogue_schema();

/// What a kept result comes to, by its outcome's key ("pass" ..., empty where there is no limit), value and limit.
evaluate::Standing standing_of(std::string_view outcome, const std::optional<double>& value, const std::optional<double>& limit);

}  // namespace wayfolio::catalogue
