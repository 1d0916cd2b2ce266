#pragma once
#include "compare/comparison.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// From values to words: what a report says, before anybody asks how it looks. Box order: model, words, blocks, and on top these two.
/// Every function of this room depends on its arguments alone: any number of threads may call it. The models that it returns own all
/// that they say; `Subject` and `SeriesView` refer to what their caller keeps. None fails on a document that was read and evaluated:
/// what is not evaluated is said with its reason.
namespace wayfolio::report {

/// The whole report: the layout's blocks in its order, those that the data support. Figures are numbered as they stand.
Model build(const Subject& subject);

/// Two results on pages: what changed, and the means of every quantity that moved, old and new, on one scale.
/// @param was, now  with the same layout
/// @param changes   made from these two
/// @param causes    of the same; nothing: which change moved which result is not said
Model build_comparison(const Subject& was, const Subject& now, const compare::Comparison& changes,
                       const std::optional<std::vector<compare::Cause>>& causes);

}  // namespace wayfolio::report
