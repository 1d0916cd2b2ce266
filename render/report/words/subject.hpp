#pragma once
#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "report/words/shown_units.hpp"

#include <algorithm>

namespace wayfolio::report {

/// One series with all that is known of it.
struct SeriesView {
    const document::Series& series;
    const evaluate::SeriesEvaluation& evaluation;
    Shown shown;          ///< of results and evaluated values
    Shown reading_shown;  ///< of single readings: angle steps are read as angles and evaluated as heights
};

/// What a report is built from: measured values, evaluated values, and a layout. How every quantity is shown, is decided here once. Refers
/// to what its maker keeps for as long as it and its views are used.
struct Subject {
    Subject(const document::Document& document, const evaluate::Evaluation& evaluation, const layouts::Layout& layout);
    const document::Document& document;
    const evaluate::Evaluation& evaluation;
    const layouts::Layout& layout;
    ShownUnits units;
    std::vector<SeriesView> views;  ///< of every evaluated series, in the document's order
};

units::NumberStyle style_of(const Subject& subject);

/// How a squareness is shown.
Shown squareness_shown(const Subject& subject);

/// The series of that id, or nullptr.
const SeriesView* find_view(const std::vector<SeriesView>& views, std::string_view id);

bool same_axis_and_state(const SeriesView& a, const SeriesView& b);

/// Things that belong together, in the order in which each group begins.
/// @param fits  whether a thing belongs to those whose first is given: fits(first, thing)
/// @param most  things in one group; another is begun for what follows
template <class Thing, class Fits>
std::vector<std::vector<Thing>> grouped(const std::vector<Thing>& things, Fits fits, std::size_t most) {
    std::vector<std::vector<Thing>> groups;
    for (const Thing& thing : things) {
        const auto found =
            std::ranges::find_if(groups, [&](const auto& group) { return group.size() < most && fits(group.front(), thing); });
        if (found == groups.end()) groups.push_back({thing});
        else found->push_back(thing);
    }
    return groups;
}

/// The series that speak for the machine as it is now: those of the last state compared, then what was measured in an earlier state only;
/// all where only one state was measured.
std::vector<SeriesView> answering_series(const Subject& subject);
/// ", as found" of what answers although the document compares with a later state; else nothing.
std::string other_state_suffix(const document::Document& document, std::string_view state);

/// The uncertainty of a parameter, if stated or computed.
std::optional<Deviation> expanded_of(const Subject& subject, std::string_view series, std::string_view parameter);
std::optional<Deviation> expanded_of(const Subject& subject, const evaluate::SquarenessEvaluation& squareness);

/// The value of a parameter, or nothing.
std::optional<Deviation> value_of_parameter(const evaluate::SeriesEvaluation& series, std::string_view parameter);

/// The value of a parameter, computed or else as stated; or nothing.
std::optional<Deviation> known_value(const evaluate::SeriesEvaluation& series, std::string_view parameter);

/// Decimals to which a parameter stands wherever it is named.
int parameter_decimals(const Subject& subject, const SeriesView& view, std::string_view parameter);
/// "29.1 µm": the parameter without its U.
std::string parameter_text(const Subject& subject, const SeriesView& view, std::string_view parameter);
/// "A" of "x-exx-left" as a page shows it: value with U, or "as stated" where only the document's value exists.
Text shown_result(const Subject& subject, const SeriesView& view, std::string_view parameter);

/// Anchors of what other pages name: scatter's part of the uncertainty, the set-up, what the document lacks.
inline constexpr const char *scatter_anchor = "scatter", *setup_anchor = "set-up", *lacking_anchor = "lacking";
/// "Limits as agreed: A 0.0004 in and R 150 µin.": those that are shown in another unit. Nothing where none is.
std::optional<std::string> agreed_limits(const SeriesView& view);

/// A length that was computed in µm, to `decimals` of a µm, in the document's unit of lengths.
std::string length_number(const Subject& subject, double um, int decimals);
/// "7.4 µm"
std::string length_words(const Subject& subject, double um, int decimals);
/// "800 mm", "30 in": a distance along an axis, in the unit of its positions.
std::string distance_text(const Subject& subject, double mm);

/// Anchors that links point to: the opening and the readings of a series.
std::string opening_anchor(std::string_view series);
std::string readings_anchor(std::string_view series);
/// Of one of the subject's own: by its number, for names of series, joined, may be those of two others.
std::string squareness_anchor(const Subject& subject, const evaluate::SquarenessEvaluation& squareness);

/// Largest number of readings used in one direction.
std::size_t runs_each_way(const evaluate::SeriesEvaluation& series);

}  // namespace wayfolio::report
