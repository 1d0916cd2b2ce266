#include "evaluate/uncertainty/systematic_draw.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wayfolio::evaluate {

namespace {

// Half-width over standard uncertainty: GUM 4.3.7, 4.3.9, H.1.
const double rectangular_half = std::sqrt(3.0), triangular_half = std::sqrt(6.0), arcsine_half = std::numbers::sqrt2;

SystematicInput input_of(const Component& leaf, double factor) {
    SystematicInput input{.standard = factor * leaf.sensitivity * leaf.standard};
    if (leaf.distribution == "rectangular")
        input.shape = SystematicInput::Shape::Rectangular;
    else if (leaf.distribution == "triangular")
        input.shape = SystematicInput::Shape::Triangular;
    else if (leaf.distribution == "u_shaped")
        input.shape = SystematicInput::Shape::Arcsine;
    else if (leaf.degrees_of_freedom)
        return {SystematicInput::Shape::Student, input.standard, *leaf.degrees_of_freedom};
    return input;
}

double drawn(const SystematicInput& input, Draws& draws) {
    switch (input.shape) {
        case SystematicInput::Shape::Normal:
            return draws.normal(0, input.standard);
        case SystematicInput::Shape::Student:
            return draws.student(0, input.standard, input.degrees_of_freedom);
        case SystematicInput::Shape::Rectangular:
            return draws.rectangular(-rectangular_half * input.standard, rectangular_half * input.standard);
        case SystematicInput::Shape::Triangular:
            return draws.triangular(-triangular_half * input.standard, triangular_half * input.standard);
        case SystematicInput::Shape::Arcsine:
            return draws.u_shaped(-arcsine_half * input.standard, arcsine_half * input.standard);
    }
    return 0;
}

}  // namespace

double standardised_quantile(const SystematicInput& input, double probability) {
    const double p = probability;
    switch (input.shape) {
        case SystematicInput::Shape::Normal:
            return quantile(boost::math::normal_distribution<double>(), p);
        case SystematicInput::Shape::Student:
            return quantile(boost::math::students_t_distribution<double>(input.degrees_of_freedom), p);
        case SystematicInput::Shape::Rectangular:
            return rectangular_half * (2 * p - 1);
        case SystematicInput::Shape::Triangular:
            return triangular_half * (p < 0.5 ? std::sqrt(2 * p) - 1 : 1 - std::sqrt(2 * (1 - p)));
        case SystematicInput::Shape::Arcsine:
            return arcsine_half * std::sin(std::numbers::pi * (p - 0.5));
    }
    return 0;
}

SystematicDraw::SystematicDraw(const std::vector<Component>& parts) {
    for (const Component& part : parts) add(part, 1);
}

void SystematicDraw::add(const Component& component, double factor) {
    if (component.parts.empty()) return add_group({input_of(component, factor)});
    if (component.law == Law::Sum) return add_sum(component, factor * component.sensitivity);
    for (const Component& part : component.parts) add(part, factor * component.sensitivity);
}

void SystematicDraw::add_sum(const Component& sum, double factor) {
    Group group;
    for (const Component& part : sum.parts) group.push_back(input_of(part, factor));
    add_group(std::move(group));
}

/// Inputs of one law are one input as large as their sum.
void SystematicDraw::add_group(Group group) {
    const auto same = [&](const SystematicInput& input) {
        return input.shape == group.front().shape && input.degrees_of_freedom == group.front().degrees_of_freedom;
    };
    if (!group.empty() && std::all_of(group.begin(), group.end(), same)) {
        for (std::size_t i = 1; i < group.size(); ++i) group.front().standard += group[i].standard;
        group.resize(1);
    }
    groups_.push_back(std::move(group));
}

double SystematicDraw::operator()(Draws& draws) const {
    constexpr double least = 0x1p-54;  // a uniform draw may be 0, where a normal quantile has no end
    double sum = 0;
    for (const Group& group : groups_) {
        if (group.size() == 1) {
            sum += drawn(group.front(), draws);
            continue;
        }
        const double p = std::max(least, draws.rectangular(0, 1));
        for (const SystematicInput& input : group) sum += input.standard * standardised_quantile(input, p);
    }
    return sum;
}

bool SystematicDraw::endless() const {
    const auto is_endless = [](const SystematicInput& input) {
        return input.shape == SystematicInput::Shape::Student && input.degrees_of_freedom <= 2;
    };
    return std::any_of(groups_.begin(), groups_.end(),
                       [&](const Group& group) { return std::any_of(group.begin(), group.end(), is_endless); });
}

}  // namespace wayfolio::evaluate
