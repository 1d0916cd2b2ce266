#include "evaluate/review/conditions/tested_axis.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// Targets are placed to a thousandth of a millimetre or degree at best; anything closer is the same place.
constexpr double same_place = 1e-6;

Condition enough_targets(const TestedAxis& axis, std::size_t asked) {
    return {.name = "targets",
            .holds = axis.targets >= asked,
            .found = static_cast<double>(axis.targets),
            .asked = static_cast<double>(asked),
            .unit = "targets",
            .text = fmt::format("{} targets; {} asks for at least {}.", axis.targets, axis.standard, asked)};
}

Condition targets_per_metre(const TestedAxis& axis, double length) {
    const double found = static_cast<double>(axis.targets) / (length / 1000);
    return {.name = "targets_per_metre",
            .holds = found >= 5 - 1e-9,
            .found = found,
            .asked = 5.0,
            .unit = "1/m",
            .text = fmt::format("{} targets on {}, {} per metre; {} asks for at least 5 per metre.", axis.targets,
                                axis.text(length), units::number(found, 1), axis.standard)};
}

Condition mean_interval(const TestedAxis& axis) {
    const double found = axis.measured() / static_cast<double>(axis.targets - 1);
    return {.name = "mean_interval",
            .holds = found <= 250 + same_place,
            .found = found,
            .asked = 250.0,
            .unit = "mm",
            .text = fmt::format("Mean interval {}; {} asks for 250{}mm on an axis of more than 2{}000{}mm.", axis.text(found),
                                axis.standard, units::thin_space, units::thin_space, units::thin_space)};
}

/// P_i = (i - 1) p + r with r random: evenly spaced targets cannot show an error that repeats with their spacing.
Condition random_spacing(const TestedAxis& axis, Targets targets) {
    double shortest = axis.measured(), longest = 0;
    for (std::size_t i = 1; i < targets.size(); ++i) {
        const double step =
            targets[i].position.in(units::position_millimetre)-targets[i - 1].position.in(units::position_millimetre);
        shortest = std::min(shortest, step);
        longest = std::max(longest, step);
    }
    const bool uneven = longest - shortest > same_place * longest;
    return {.name = "random_spacing",
            .holds = uneven,
            .text = uneven ? fmt::format("Unevenly spaced targets, as {} asks.", axis.standard)
                           : fmt::format(
                                 "Evenly spaced targets ({}); {} asks for random spacing: errors of its period stay unseen.",
                                 axis.text(longest), axis.standard)};
}

void add_linear(std::vector<Condition>& conditions, const TestedAxis& axis, Targets targets) {
    if (is_long(axis)) {
        if (targets.size() >= 2) conditions.push_back(mean_interval(axis));
    } else {
        conditions.push_back(enough_targets(axis, 5));
        const double length = is_additional_test(axis) ? axis.measured() : axis.travel();
        if (length > 0) conditions.push_back(targets_per_metre(axis, length));
    }
    if (targets.size() >= 3) conditions.push_back(random_spacing(axis, targets));
}

bool among_targets(Targets targets, double principal) {
    return std::any_of(targets.begin(), targets.end(), [&](const auto& target) {
        return std::abs(std::remainder(target.position.in(units::position_degree)-principal, 360.0)) < same_place;
    });
}

/// Whether the axis reaches the principal position in any of its turns.
bool reached(const TestedAxis& axis, double principal) {
    const double turn = std::ceil((axis.from - principal) / 360.0 - same_place);
    return principal + turn * 360.0 <= axis.to + same_place;
}

Condition principal_positions(const TestedAxis& axis, Targets targets) {
    std::vector<std::string> wanted, absent;
    for (const double principal : {0.0, 90.0, 180.0, 270.0}) {
        if (!reached(axis, principal)) continue;
        wanted.push_back(axis.text(principal));
        if (!among_targets(targets, principal)) absent.push_back(axis.text(principal));
    }
    const auto outcome = absent.empty() ? std::string("all are") : fmt::format("not among them: {}", fmt::join(absent, ", "));
    return {.name = "principal_positions",
            .holds = absent.empty(),
            .found = static_cast<double>(wanted.size() - absent.size()),
            .asked = static_cast<double>(wanted.size()),
            .unit = "targets",
            .text = fmt::format("{} asks for targets at {}; {}.", axis.standard, fmt::join(wanted, ", "), outcome)};
}

Condition targets_per_revolution(const TestedAxis& axis) {
    const double found = static_cast<double>(axis.targets) / (axis.measured() / 360);
    return {.name = "targets_per_revolution",
            .holds = found >= 8 - 1e-9,
            .found = found,
            .asked = 8.0,
            .unit = "1/rev",
            .text = fmt::format("{} targets over {}, {} per revolution; {} asks for at least 8.", axis.targets,
                                axis.text(axis.measured()), units::number(found, 1), axis.standard)};
}

Condition measured_travel(const TestedAxis& axis) {
    return {.name = "measured_travel",
            .holds = axis.measured() <= 1800 + same_place,
            .found = axis.measured(),
            .asked = 1800.0,
            .unit = "deg",
            .text = fmt::format("Measured over {}; {} asks for up to {}.", axis.text(axis.measured()), axis.standard,
                                axis.text(1800))};
}

void add_rotary(std::vector<Condition>& conditions, const TestedAxis& axis, Targets targets) {
    if (is_long(axis)) {
        if (axis.measured() > 0) conditions.push_back(targets_per_revolution(axis));
        conditions.push_back(measured_travel(axis));
        return;
    }
    const double span = is_additional_test(axis) ? axis.measured() : axis.travel();
    conditions.push_back(enough_targets(axis, span <= 90 ? 3 : span <= 180 ? 5 : 8));
    conditions.push_back(principal_positions(axis, targets));
}

}  // namespace

void add_target_conditions(std::vector<Condition>& conditions, const TestedAxis& axis, Targets targets) {
    if (axis.rotary)
        add_rotary(conditions, axis, targets);
    else
        add_linear(conditions, axis, targets);
}

}  // namespace wayfolio::evaluate
