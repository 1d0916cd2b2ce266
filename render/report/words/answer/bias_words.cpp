#include "report/words/passages.hpp"

#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::KnownBias;

/// "+7.6 µm": two significant digits, in the unit of the page.
std::string signed_text(const Shown& shown, double um) {
    const Deviation value = units::micrometre(um);
    const double size = std::abs(value.in(shown.unit));
    return (um > 0 ? "+" : "") + value_text(shown, value, size > 0 ? units::decimals_for_uncertainty(size) : shown.decimals);
}

/// "+3.6 µm/m"; where positions are inches "+3.6 µin/in", which is the same number.
std::string in_proportion(const Shown& shown, double um_per_m) {
    if (!(shown.position == units::position_inch)) return signed_text(shown, um_per_m) + "/m";
    const int decimals = um_per_m == 0 ? 1 : units::decimals_for_uncertainty(std::abs(um_per_m));
    return (um_per_m > 0 ? "+" : "") + with_unit(units::number(um_per_m, decimals, shown.style), "µin/in");
}

}  // namespace

Text known_bias_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    const KnownBias* worst = nullptr;
    const SeriesView* of = nullptr;
    std::size_t more = 0;
    for (const SeriesView& view : views)
        for (const KnownBias& bias : subject.evaluation.known_biases) {
            const bool counts = bias.treatment == KnownBias::Treatment::Added || bias.treatment == KnownBias::Treatment::Open;
            if (!counts || bias.series != view.series.id) continue;
            ++more;
            if (worst && std::abs(bias.over_travel_um()) <= std::abs(worst->over_travel_um())) continue;
            worst = &bias;
            of = &view;
        }
    if (!worst) return {};
    Text text("Not corrected in " + of->series.error.text() + ": " + std::string(document::influence_name(worst->influence)) + ", " +
              signed_text(of->shown, worst->over_travel_um()) + " over the travel");
    if (more > 1) text.plain(", and " + count_word(more - 1) + " more known " + (more == 2 ? "effect" : "effects"));
    if (worst->treatment == KnownBias::Treatment::Added) return text.plain("; ").symbol("U").plain(" is enlarged by it");
    return text.plain("; no ").symbol("U").plain(" counts it");
}

Text air_correction_words(const SeriesView& view, const std::string& headline) {
    if (!view.evaluation.air_correction) return {};
    if (const auto* why = std::get_if<evaluate::NotEvaluated>(&*view.evaluation.air_correction))
        return Text("Not corrected for the air, as was asked for: " + why->reason + ". ");
    const auto& air = std::get<evaluate::AirTakenOff>(*view.evaluation.air_correction);
    Text text("Corrected for the air of the record, as asked for: " + in_proportion(view.shown, -air.um_per_m) + " from " +
              position_text(view.shown, air.zero));
    const auto* parameter = evaluate::find_parameter(view.evaluation, headline);
    if (!parameter || !parameter->raw) parameter = evaluate::find_parameter(view.evaluation, "E");
    if (parameter && parameter->raw)
        text.plain("; without it ")
            .symbol(parameter_symbol(parameter->name))
            .plain(" is " + with_unit(result_number(view.shown, *parameter->raw, view.shown.decimals), view.shown.unit.symbol));
    return text.plain(". ");
}

}  // namespace wayfolio::report
