#pragma once
#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "report/words/shown.hpp"

namespace wayfolio::report {

/// What a report is built from: measured values, evaluated values, and the layout's choice of units and decimals.
struct Subject {
    const document::Document& document;
    const evaluate::Evaluation& evaluation;
    const layouts::Layout& layout;
};

/// One series with all that is known of it.
struct SeriesView {
    const document::Series& series;
    const evaluate::SeriesEvaluation& evaluation;
    Shown shown;          ///< of results and evaluated values
    Shown reading_shown;  ///< of single readings: angle steps are read as angles and evaluated as heights
};

/// Every series of the document, in its order.
std::vector<SeriesView> series_views(const Subject& subject);

/// The uncertainty of a parameter, if stated or computed.
std::optional<Deviation> expanded_of(const Subject& subject, std::string_view series, std::string_view parameter);

/// The value of a parameter, or nothing.
std::optional<Deviation> value_of_parameter(const evaluate::SeriesEvaluation& series, std::string_view parameter);

/// "A" of "x-exx-left" as a page shows it: value with U, or "as stated" where only the document's value exists.
Text shown_result(const Subject& subject, const SeriesView& view, std::string_view parameter);

/// Anchors that links point to: the opening and the readings of a series.
std::string opening_anchor(std::string_view series);
std::string readings_anchor(std::string_view series);

/// Largest number of readings used in one direction.
std::size_t runs_each_way(const evaluate::SeriesEvaluation& series);

}  // namespace wayfolio::report
