#include "evaluate/review/conditions/tested_axis.hpp"

#include <fmt/format.h>
#include <algorithm>

namespace wayfolio::evaluate {
namespace {

std::string counted(std::size_t runs) { return fmt::format("{} {}", runs, runs == 1 ? "run" : "runs"); }

std::string runs_text(const TestedAxis& axis) {
    if (axis.positive == axis.negative) return counted(axis.positive) + " in each approach";
    return fmt::format("{} in the positive and {} in the negative approach", counted(axis.positive), axis.negative);
}

std::string readings_text(const TestedAxis& axis) {
    if (axis.least == std::min(axis.positive, axis.negative)) return "";
    return fmt::format(", but only {} {} at some target", axis.least, axis.least == 1 ? "reading" : "readings");
}

Condition both_directions(const TestedAxis& axis) {
    const int found = (axis.positive > 0 ? 1 : 0) + (axis.negative > 0 ? 1 : 0);
    return {.name = "both_directions",
            .holds = found == 2,
            .found = static_cast<double>(found),
            .asked = 2.0,
            .unit = "approaches",
            .text = found == 2 ? "Both approaches are measured."
                               : fmt::format("Only one approach is measured; {} asks for both.", axis.standard)};
}

Condition five_runs(const TestedAxis& axis) {
    return {.name = "runs",
            .holds = axis.least >= 5,
            .found = static_cast<double>(axis.least),
            .asked = 5.0,
            .unit = "runs",
            .text = fmt::format("{}{}; {} asks for at least 5 in each approach.", runs_text(axis), readings_text(axis),
                                axis.standard)};
}

/// n = 1 each way on a long axis [seen: clause 6.2 in the national adoption GOST ISO 230-2-2016].
Condition one_approach_each_way(const TestedAxis& axis) {
    const auto runs = std::max(axis.positive, axis.negative);
    Condition condition{.name = "one_approach_each_way",
                        .holds = axis.positive == 1 && axis.negative == 1,
                        .found = static_cast<double>(runs),
                        .asked = 1.0,
                        .unit = "runs",
                        .text = ""};
    const auto what = fmt::format("{} over {}", runs_text(axis), axis.text(axis.travel()));
    const auto standard = fmt::format("the long-axis test of {}, which has one run in each approach", axis.standard);
    if (runs <= 1)
        condition.text = fmt::format("{}; {}.", what, standard);
    else if (axis.agreed.empty())
        condition.text = fmt::format("{}: not {}; the document names no agreement.", what, standard);
    else
        condition.text = fmt::format("{}: by agreement ({}), not {}.", what, fmt::join(axis.agreed, "; "), standard);
    return condition;
}

}  // namespace

void add_run_conditions(std::vector<Condition>& conditions, const TestedAxis& axis) {
    conditions.push_back(is_long(axis) ? one_approach_each_way(axis) : five_runs(axis));
    conditions.push_back(both_directions(axis));
}

}  // namespace wayfolio::evaluate
