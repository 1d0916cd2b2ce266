#include "report/words/passages.hpp"

#include "report/words/names.hpp"

#include <cmath>

namespace wayfolio::report {

std::string budget_parameter(const SeriesView& view, const evaluate::ParameterUncertainty& entry) {
    std::string name = parameter_symbol(entry.parameter);
    if (name != entry.parameter) name = parameter_words(entry.parameter, view.evaluation.standard);
    if (name != entry.parameter) name = uncapitalised(name);
    if (entry.length_mm) name += " over " + length_text(view.shown, *entry.length_mm);
    return name;
}

std::string freedom_text(const std::optional<double>& degrees, const units::NumberStyle& style) {
    return degrees ? units::number(std::floor(*degrees), 0, style) : "∞";
}

std::string share_text(double share, const units::NumberStyle& style) {
    constexpr double rounds_to_none = 0.005;
    return share < rounds_to_none ? "<\u202f1" : units::number(100 * share, 0, style);
}

}  // namespace wayfolio::report
