#include "certificate/quantity.hpp"
#include "evaluate/written/json_text.hpp"
#include "evaluate/written/words.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using evaluate::Parameter;
using evaluate::SeriesEvaluation;

/// "least squares line"
std::string line_words(document::ReferenceLine line) {
    std::string words(evaluate::word(line));
    std::ranges::replace(words, '_', ' ');
    return words + (line == document::ReferenceLine::MinimumZone ? "" : " line");
}

/// A value where there is one, else what the analyst stated, else the reason.
SiQuantity quantity_of(const Drafting& drafting, const SeriesEvaluation& series, const Parameter& parameter, const std::string& id) {
    SiQuantity quantity{
        .name = report::parameter_words(parameter.name, series.standard), .label = parameter.name, .id = quantity_id(id, parameter.name)};
    const auto* value = evaluate::value_of(parameter.value);
    const units::Deviation* shown = value ? value : parameter.stated ? &*parameter.stated : nullptr;
    if (parameter.reference_line) quantity.description.push_back(ours("about the " + line_words(*parameter.reference_line)));
    if (!shown) {
        quantity.reason = std::get<evaluate::NotEvaluated>(parameter.value).reason;
        return quantity;
    }
    if (!value) quantity.description.push_back(ours("as the analyst stated it; not recomputed"));
    const SiUnit unit = si_unit(evaluate::written_unit(*shown, series.unit));
    quantity.value = shown->in(unit.unit);
    quantity.unit = unit.spelling;
    quantity.expanded = expanded_of(evaluate::find_uncertainty(drafting.evaluation, series.id, parameter.name), unit.unit);
    return quantity;
}

/// Uncertainty of a local straightness: of the window's length, or stated for all.
const evaluate::ParameterUncertainty* local_uncertainty(const evaluate::Evaluation& evaluation, const SeriesEvaluation& series,
                                                        const evaluate::LocalStraightness& local) {
    const double window = local.window.in(units::millimetre);
    const auto same = [&](const evaluate::ParameterUncertainty& one) {
        const bool of_window = !one.length_mm || std::abs(*one.length_mm - window) <= 1e-9 * window;
        return one.series == series.id && one.parameter == "local" && of_window;
    };
    const auto found = std::ranges::find_if(evaluation.uncertainty, same);
    return found == evaluation.uncertainty.end() ? nullptr : &*found;
}

void put_local(Drafting& drafting, const SeriesEvaluation& series, std::size_t place, const std::string& id) {
    const auto& local = series.local[place];
    const SiUnit unit = si_unit(evaluate::written_unit(local.value, series.unit));
    const SiPositionUnit along = si_unit(series.position_unit);
    const char* from =
        local.reference == document::ReferenceLine::MinimumZone ? "minimum zone of the window" : "end-point chord of the window";
    put_quantity(drafting, {.name = fmt::format("Local straightness error over {} mm", local.window.in(units::millimetre)),
                            .label = "local",
                            .id = local_id(id, place),
                            .value = local.value.in(unit.unit),
                            .unit = unit.spelling,
                            .expanded = expanded_of(local_uncertainty(drafting.evaluation, series, local), unit.unit),
                            .description = {ours(fmt::format("{}; largest from {} to {} {}", from, local.from.in(along.unit),
                                                             local.to.in(along.unit), along.unit.symbol))}});
}

/// The headline line is among the parameters already; the others stand beside it.
void put_lines_of_reference(Drafting& drafting, const SeriesEvaluation& series) {
    for (const auto& line : series.lines) {
        const SiUnit unit = si_unit(evaluate::written_unit(line.straightness, series.unit));
        const std::string label(evaluate::word(line.kind));
        put_quantity(drafting, {.name = "Straightness about the " + line_words(line.kind),
                                .label = label + ".straightness",
                                .value = line.straightness.in(unit.unit),
                                .unit = unit.spelling,
                                .description = {ours(line.one_way ? "readings in one approach only" : "")}});
        put_quantity(drafting, {.name = "Slope of the " + line_words(line.kind),
                                .label = label + ".slope",
                                .value = line.slope.in(units::micrometre_per_metre),
                                .unit = si::micrometre_per_metre});
    }
}

}  // namespace

void put_parameters(Drafting& drafting, const SeriesEvaluation& series, const std::string& id) {
    const auto result = drafting.xml.open("dcc:result");
    put_name(drafting.xml, ours("Parameters"));
    const auto data = drafting.xml.open("dcc:data");
    for (const Parameter& parameter : series.parameters) put_quantity(drafting, quantity_of(drafting, series, parameter, id));
    for (std::size_t place = 0; place < series.local.size(); ++place) put_local(drafting, series, place, id);
    put_lines_of_reference(drafting, series);
    if (series.parameters.empty() && series.local.empty() && series.lines.empty())
        put_lines(drafting.xml, "dcc:text", {ours("Nothing is evaluated.")});
}

}  // namespace wayfolio::certificate
