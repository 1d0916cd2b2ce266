#include "evaluate/review/conditions/conditions.hpp"

#include "evaluate/review/conditions/tested_axis.hpp"

#include <fmt/format.h>

namespace wayfolio::evaluate {
namespace {

/// [seen: clause 6.2 in the national adoption GOST ISO 230-2-2016]
Condition additional_test(const TestedAxis& axis) {
    const auto where_agreed = axis.agreed.empty() ? std::string("made where agreed; the document names no agreement")
                                                  : fmt::format("made by agreement ({})", fmt::join(axis.agreed, "; "));
    return {.name = "long_axis_test",
            .holds = false,
            .found = axis.measured(),
            .asked = axis.travel(),
            .unit = axis.unit(),
            .text = fmt::format("Targets over {} of {} travel: a test in addition to the long-axis test of {}, {}.",
                                axis.text(axis.measured()), axis.text(axis.travel()), axis.standard, where_agreed)};
}

}  // namespace

std::vector<Condition> test_conditions(const document::Document& document, const document::Series& series, Targets targets) {
    std::vector<Condition> conditions;
    if (!targets.empty()) {
        const auto axis = tested_axis(document, series, targets);
        if (is_additional_test(axis)) conditions.push_back(additional_test(axis));
        add_target_conditions(conditions, axis, targets);
        if (axis.counted) add_run_conditions(conditions, axis);
    }
    add_stated_conditions(conditions, document, series);
    return conditions;
}

}  // namespace wayfolio::evaluate
