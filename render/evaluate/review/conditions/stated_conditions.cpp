#include "evaluate/review/conditions/tested_axis.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

namespace wayfolio::evaluate {
namespace {

Condition warm_up(const document::Document& document, const document::Series& series) {
    auto text = series.warm_up;
    if (text.empty() && document.setup) text = document.setup->warm_up;
    Condition condition{
        .name = "warm_up_stated", .holds = std::nullopt, .text = "The document does not say how the machine was warmed up."};
    if (!text.empty()) {
        condition.holds = true;
        condition.text = fmt::format("Warm-up: {}.", text);
    }
    return condition;
}

/// 20 degrees Celsius by ISO 1.
Condition reference_temperature(const document::Document& document) {
    Condition condition{.name = "reference_temperature",
                        .holds = std::nullopt,
                        .asked = 20.0,
                        .unit = "degC",
                        .text = "The document does not state the reference temperature; ISO 1 asks for 20 °C."};
    if (document.environment && document.environment->reference_temperature_C) {
        const double found = *document.environment->reference_temperature_C;
        condition.found = found;
        condition.holds = found == 20;
        condition.text = fmt::format("Reference temperature {} °C; ISO 1 asks for 20 °C.", units::shortest(found));
    }
    return condition;
}

Condition expansion_correction(const document::Series& series) {
    Condition condition{.name = "expansion_correction_stated",
                        .holds = std::nullopt,
                        .text = "The document does not say whether differential expansion was corrected."};
    if (!series.expansion_correction) return condition;
    const auto& correction = *series.expansion_correction;
    condition.holds = !correction.applied || correction.coefficient_um_per_m_K;
    if (!correction.applied)
        condition.text = "No correction for differential expansion.";
    else if (correction.coefficient_um_per_m_K)
        condition.text = fmt::format("Corrected for differential expansion with {} µm/(m °C).",
                                     units::shortest(*correction.coefficient_um_per_m_K));
    else
        condition.text = "Corrected for differential expansion; the coefficient is not stated.";
    return condition;
}

}  // namespace

void add_stated_conditions(std::vector<Condition>& conditions, const document::Document& document, const document::Series& series) {
    conditions.push_back(warm_up(document, series));
    conditions.push_back(reference_temperature(document));
    if (!series.error.axis_is_rotary()) conditions.push_back(expansion_correction(series));
}

}  // namespace wayfolio::evaluate
