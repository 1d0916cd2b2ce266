#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// "A", "straightness", "local straightness over 300 mm": what a budget is of.
std::string budget_parameter(const SeriesView& view, const evaluate::ParameterUncertainty& entry);
/// "31", or "∞".
std::string freedom_text(const std::optional<double>& degrees, const units::NumberStyle& style);
/// A share of the variance in whole percent: "47", "< 1".
std::string share_text(double share, const units::NumberStyle& style);

/// The budget of one computed entry with every contributor, ranked. Needs contributors.
Budget budget_of(const Subject& subject, const SeriesView& view, const evaluate::ParameterUncertainty& entry);

/// What each contributor brings to each parameter of a series that both directions set; nothing where fewer than two have a budget.
std::optional<Section> budget_matrix(const Subject& subject, const SeriesView& view);

/// The entries that are the columns of budget_matrix(): as many as have room. What has no column must stand elsewhere.
std::vector<const evaluate::ParameterUncertainty*> matrix_columns(const Subject& subject, const SeriesView& view);

}  // namespace wayfolio::report
