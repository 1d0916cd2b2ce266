#include "document/read/number_rules.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace wayfolio::document {
namespace {

constexpr std::string_view no_position = "a reading is the deviation, actual less target, not the position that was read";

template <long most>
constexpr bool within(double n) {
    return n >= -static_cast<double>(most) && n <= static_cast<double>(most);
}

using UnitRule = std::pair<std::string_view, NumberRule>;

constexpr std::array<UnitRule, 3> position_rules{
    {{"mm", {"a position in mm, of at most 1 000 000 in size (1 km)", within<1'000'000>}},
     {"in", {"a position in inches, of at most 40 000 in size (1 km)", within<40'000>}},
     {"deg", {"a position in degrees, of at most 36 000 in size (100 turns)", within<36'000>, "3600 arcsec are 1 deg"}}}};

constexpr std::array<UnitRule, 8> deviation_rules{
    {{"um", {"a deviation in um, of at most 1 000 000 in size (1 m)", within<1'000'000>, no_position}},
     {"mm", {"a deviation in mm, of at most 1000 in size (1 m)", within<1'000>, no_position}},
     {"in", {"a deviation in inches, of at most 40 in size (1 m)", within<40>, no_position}},
     {"uin", {"a deviation in uin, of at most 40 000 000 in size (1 m)", within<40'000'000>, no_position}},
     {"urad", {"a deviation in urad, of at most 630 000 000 in size (100 turns)", within<630'000'000>, no_position}},
     {"arcsec", {"a deviation in arcsec, of at most 129 600 000 in size (100 turns)", within<129'600'000>, no_position}},
     {"deg", {"a deviation in degrees, of at most 36 000 in size (100 turns)", within<36'000>, no_position}},
     {"um/m", {"a deviation in um/m, of at most 1 000 000 in size", within<1'000'000>, no_position}}}};

const NumberRule& rule_of(std::span<const UnitRule> rules, std::string_view unit) {
    return std::ranges::find(rules, unit, &UnitRule::first)->second;
}

}  // namespace

const NumberRule& position_rule(const units::PositionUnit& unit) { return rule_of(position_rules, unit.spelling); }
const NumberRule& deviation_rule(const units::DeviationUnit& unit) { return rule_of(deviation_rules, unit.spelling); }

}  // namespace wayfolio::document
