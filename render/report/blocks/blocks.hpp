#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// The blocks of a report, each in a file of its own name. Those with a figure leave its number empty where none is given here.
namespace wayfolio::report {

/// The first page: what was measured, a map of all quantities with their verdicts, what failed and by how much, what to do next.
Answer answer(const Subject& subject);

/// The opening of one positioning series: the sentence, the figure with its strips, the parameter table.
PositioningOpening positioning_opening(const Subject& subject, const SeriesView& view);

/// Whether a series has a polar form: positioning of a rotary axis over more than a quarter turn.
bool goes_round(const evaluate::SeriesEvaluation& series);
/// Every series that has one, in the document's order.
std::vector<PolarOpening> polar_openings(const Subject& subject);

/// Panels that one page shows.
inline constexpr std::size_t most_panels = 3;
/// Angles, or straightness, of one axis in one state as aligned panels on one scale.
/// @param views  of one kind, axis and state, at least one and at most most_panels
Panels panels(const Subject& subject, const std::vector<SeriesView>& views);
/// Where the local straightness errors are that its table names, as a sentence; or nothing.
std::string locally_largest(const Subject& subject, const SeriesView& view);

/// What the angles do at the tool point: for each axis and state the effect as curves with measured and moved results side by
/// side, or the reasons why it is not evaluated. An additional result: measured values and verdicts stay as they are.
std::vector<Block> tool_points(const Subject& subject);

/// The same of these series without figures.
std::vector<Section> tool_point_numbers(const Subject& subject, const std::vector<std::string>& ids);

/// One page part for each squareness the document asks for, in its order.
std::vector<SquarenessOpening> squareness_openings(const Subject& subject);

/// As found beside as left: up to three quantities drawn (the worst first), all of them in the table.
/// Nothing where no error was measured in both states.
std::optional<States> states(const Subject& subject);
/// The earlier of two series that a report sets side by side: it has no opening of its own. A sheet without an answer weighs no state
/// against another, and has them all.
std::vector<std::string> shown_by_states(const Subject& subject);
inline constexpr const char* states_anchor = "states";
/// Anchor of the page that shows a series: its own opening, or that of the states.
std::string where_told(const Subject& subject, const std::string& series);
/// What their openings would say in numbers.
std::vector<Section> superseded_numbers(const Subject& subject);

/// Every compensation table that the document asks for, refused ones with their reasons.
std::vector<Compensation> compensations(const Subject& subject);

/// Budgets of the headline parameters, ranked; the decision rule drawn; every other parameter; the second opinion where it was asked for.
/// Nothing where the document gives neither an uncertainty nor a limit.
std::optional<Uncertainty> uncertainty(const Subject& subject);

/// The environment page; nothing where the document records neither surroundings nor an axis at rest.
std::optional<EnvironmentOpening> environment(const Subject& subject);

/// What the readings hint at: raised hints with their statistic, p and level, then every test that was made. Hints change no
/// result. No sections where the document switches hints off.
Sections hints(const Subject& subject);

/// Readings and evaluated values of one series, target by target.
Readings readings(const Subject& subject, const SeriesView& view);

/// Where the measurement lines ran, with the set-up; nothing where the document does not tell enough to draw one line at its place.
std::optional<LinesOpening> measurement_lines(const Subject& subject);
/// What its figure is called; nothing where there is none.
std::optional<std::string> measurement_lines_title(const document::Document& document);

/// Conditions of the standard, warnings; set-up and environment as numbers where they have no page of their own.
Sections conditions(const Subject& subject);
/// Job, machine, instruments.
Sections facts(const Subject& subject);
/// What the layout's house says; without sections where it says nothing.
Sections house(const Subject& subject);
/// How was decided, remarks, what is missing, cautions, signatures: the end of a report that carries its method in the attachments.
Sections remarks(const Subject& subject);
/// The same behind the method in full.
Sections closing(const Subject& subject);

}  // namespace wayfolio::report
