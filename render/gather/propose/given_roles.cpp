#include "gather/propose/roles.hpp"
#include "gather/shapes/head.hpp"
#include "input/json/json.hpp"
#include "units/deviation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace wayfolio::gather {
namespace {

struct GivenKind {
    RoleWord word;
    Becomes becomes;
    std::optional<Approach> approach;
    std::array<std::string_view, 3> units{};  ///< of surroundings
};
constexpr std::array<GivenKind, 15> given_kinds{
    {{{"position", "target position", true}, Becomes::Position, {}},
     {{"approach", "approach", true}, Becomes::Approach, {}},
     {{"run", "run", true}, Becomes::Run, {}},
     {{"deviation", "readings: deviations"}, Becomes::Deviation, {}},
     {{"actual", "readings: actual positions"}, Becomes::Actual, {}},
     {{"run-positive", "readings: one run, positive approach"}, Becomes::RunColumn, Approach::Positive},
     {{"run-negative", "readings: one run, negative approach"}, Becomes::RunColumn, Approach::Negative},
     {{"mark", "mark of readings set aside", true}, Becomes::Mark, {}},
     {{"time", "time"}, Becomes::Time, {}},
     {{"air_C", "air temperature", true}, Becomes::Environment, {}, {"C", "F"}},
     {{"pressure_hPa", "air pressure", true}, Becomes::Environment, {}, {"hPa", "kPa", "Pa"}},
     {{"humidity_percent", "humidity of the air", true}, Becomes::Environment, {}, {"percent"}},
     {{"co2_ppm", "carbon dioxide", true}, Becomes::Environment, {}, {"ppm"}},
     {{"machine_C", "temperature of the machine"}, Becomes::Environment, {}, {"C", "F"}},
     {{"nothing", "is not read"}, Becomes::Nothing, {}}}};

constexpr auto given_words = [] {
    std::array<RoleWord, given_kinds.size()> all{};
    std::ranges::transform(given_kinds, all.begin(), &GivenKind::word);
    return all;
}();

Role role_of(const GivenKind& kind, const LookedAt& seen, std::size_t place) {
    Role role{.becomes = kind.becomes, .approach = kind.approach};
    if (kind.becomes == Becomes::Environment) role.key = kind.word.role;
    if (kind.becomes == Becomes::Time) role.form = form_of_column(seen, place);
    if (place >= seen.heads.size()) return role;
    role.unit = unit_in_head(seen.heads[place]).value_or("");
    if (is_reading(kind.becomes)) role.error = symbol_in(seen.heads[place]);
    return role;
}

/// The word of a role that one column alone can have; "" for any other.
std::string_view only_one(const Role& role) {
    for (const GivenKind& kind : given_kinds)
        if (kind.word.only_one && kind.becomes == role.becomes && (role.key.empty() || role.key == kind.word.role)) return kind.word.role;
    return {};
}

/// Columns of a pattern, some of which are something else now: they are named one by one, and a single one is no run of several.
void list_rest_of(const std::string& pattern, std::vector<Role>& roles) {
    const auto of_it = [&](const Role& role) { return role.pattern == pattern; };
    const bool alone = std::ranges::count_if(roles, of_it) == 1;
    for (Role& role : roles) {
        if (!of_it(role)) continue;
        role.listed = true;
        if (!alone || role.becomes != Becomes::RunColumn) continue;
        role.becomes = Becomes::Deviation;
        role.pattern.clear();
    }
}

/// A unit that a head states, where what stands below it is not told in such units, is open.
void drop_other_units(Role& role) {
    const auto* const kind = std::ranges::find_if(
        given_kinds, [&](const GivenKind& one) { return role.becomes == Becomes::Environment && one.word.role == role.key; });
    const bool fits = role.becomes == Becomes::Environment ? std::ranges::find(kind->units, role.unit) != kind->units.end()
                                                           : units::deviation_unit(role.unit).has_value();
    const bool told = role.becomes == Becomes::Environment || is_reading(role.becomes);
    if (told && role.becomes != Becomes::Actual && !fits) role.unit.clear();
}

}  // namespace

std::span<const RoleWord> role_words() { return given_words; }

void give_roles(std::vector<Role>& roles, const LookedAt& seen, const std::vector<GivenRole>& given) {
    std::vector<input::Problem> problems;
    std::map<std::string_view, std::size_t> first;  // place of what only one column can be
    for (const GivenRole& one : given) {
        const auto fault = [&](std::string found, std::string expected) {
            problems.push_back({seen.name, {}, std::move(found), std::move(expected), {}});
        };
        const auto* const kind = std::ranges::find_if(given_kinds, [&](const GivenKind& known) { return known.word.role == one.role; });
        if (one.column < 1 || one.column > roles.size()) {
            fault(fmt::format("a role for column {}", one.column), fmt::format("a column from 1 to {}", roles.size()));
        } else if (kind == given_kinds.end()) {
            fault("the role " + input::quoted(one.role), "a role that the proposal names");
        } else {
            Role& role = roles[one.column - 1];
            const std::string pattern = role.pattern;
            role = role_of(*kind, seen, one.column - 1);
            if (!pattern.empty()) list_rest_of(pattern, roles);
            const std::string_view single = only_one(role);
            if (!single.empty() && !first.emplace(single, one.column - 1).second)
                fault(fmt::format("two columns with the role {}", input::quoted(one.role)), "one of them");
        }
    }
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
    for (std::size_t place = 0; place < roles.size(); ++place) {
        const std::string_view single = only_one(roles[place]);
        if (!single.empty() && first.emplace(single, place).first->second != place) roles[place] = {.taken = true};
        drop_other_units(roles[place]);
    }
}

}  // namespace wayfolio::gather
