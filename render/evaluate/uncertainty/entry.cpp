#include "evaluate/uncertainty/uncertainty.hpp"

#include "evaluate/series/targets.hpp"

namespace wayfolio::evaluate {

namespace {

/// What U follows from a budget: k = 2, or Student's t for 95 % with the effective degrees of freedom truncated downwards.
struct Covered {
    double standard, expanded, factor;
    std::optional<double> degrees_of_freedom;
};

Covered covered(const Component& budget, document::Coverage coverage) {
    Combined combined = combine(budget);
    if (combined.degrees_of_freedom) combined.degrees_of_freedom = truncated(*combined.degrees_of_freedom);
    const double factor = coverage == document::Coverage::K2 ? 2 : coverage_factor(combined.degrees_of_freedom, 0.95);
    return {combined.standard, factor * combined.standard, factor, combined.degrees_of_freedom};
}

std::vector<BudgetLine> lines_of(const Component& budget, const DeviationUnit& base) {
    std::vector<BudgetLine> lines;
    for (const Share& share : shares(budget)) {
        const Component& of = *share.contributor;
        const double sensitivity = of.standard > 0 ? share.contribution / of.standard : of.sensitivity;
        lines.push_back({.name = of.name,
                         .basis = of.basis,
                         .distribution = of.distribution,
                         .standard = Deviation(share.contribution, base),
                         .sensitivity = sensitivity,
                         .degrees_of_freedom = of.degrees_of_freedom,
                         .share = share.share,
                         .per_metre = of.per_metre,
                         .correlated = std::string(share.correlated),
                         .influence = of.influence});
    }
    return lines;
}

}  // namespace

ParameterUncertainty computed(const document::Document& document, const Component& budget, const DeviationUnit& unit) {
    const DeviationUnit base = base_unit(unit.dimension);
    const Covered result = covered(budget, document.evaluation.coverage.value_or(document::Coverage::K2));
    ParameterUncertainty entry{.series = {},
                               .parameter = {},
                               .axes = {},
                               .length_mm = {},
                               .source = Source::Runs,
                               .unit = unit,
                               .expanded = Deviation(result.expanded, base),
                               .standard = Deviation(result.standard, base),
                               .degrees_of_freedom = result.degrees_of_freedom,
                               .contributors = lines_of(budget, base),
                               .standard_at_setting_targets = {},
                               .expanded_at_setting_targets = {},
                               .monte_carlo = {}};
    entry.coverage_factor = result.factor;
    entry.coverage = coverage_reached(result.degrees_of_freedom, result.factor);
    return entry;
}

void add_at_setting_targets(ParameterUncertainty& entry, const document::Document& document, const Component& budget) {
    const DeviationUnit base = base_unit(entry.unit.dimension);
    const Covered result = covered(budget, document.evaluation.coverage.value_or(document::Coverage::K2));
    const Deviation expanded(result.expanded, base);
    if (entry.expanded_at_setting_targets && !(expanded > *entry.expanded_at_setting_targets)) return;
    entry.standard_at_setting_targets = Deviation(result.standard, base);
    entry.expanded_at_setting_targets = expanded;
}

void raise_to_capability(ParameterUncertainty& entry, const std::optional<Deviation>& capability) {
    if (!capability || capability->dimension() != entry.expanded.dimension() || !(entry.expanded < *capability)) return;
    entry.expanded = *capability;
    entry.standard = *capability / entry.coverage_factor;
    entry.raised_to_capability = true;
}

}  // namespace wayfolio::evaluate
