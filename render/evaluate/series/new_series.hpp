#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// The evaluation of a series before its parameters: what it is, its per-target values (from the runs, else as stated), and the
/// readings missing or set aside. Every kind of series starts from it.
SeriesEvaluation new_series(const document::Document& document, const document::Series& series);

/// Where the values of a series come from: its runs, else what the document states.
Source source_of(const document::Series& series);

/// The kind of evaluation a series gets.
SeriesKind kind_of(const document::Series& series);

/// The edition that positioning is evaluated by, as printed: "ISO 230-2:2014".
std::string_view standard_name(document::Standard standard);

}  // namespace wayfolio::evaluate
