#include "report/blocks/blocks.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/record_time.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

/// Something that the surroundings did to a length, over a whole travel or at one place.
struct Effect {
    double um;
    std::string words;
};

std::string whole(const Subject& subject, double value, int decimals, const std::string& unit) {
    return with_unit(units::number(value, decimals, style_of(subject)), unit);
}

std::string long_or_short(double um) { return um < 0 ? " too short" : " too long"; }

void add_applied(std::vector<Effect>& effects, const Subject& subject) {
    for (const auto& applied : subject.evaluation.environment.applied) {
        const auto* series = document::find_series(subject.document, applied.series);
        if (!series) continue;
        const auto length = evaluate::axis_length_m(subject.document, series->error.axis);
        const auto add = [&](const std::optional<evaluate::Evaluated<double>>& result, double factor, const std::string& why,
                             const std::string& over) {
            if (!result || !std::holds_alternative<double>(*result)) return;
            const double um = std::get<double>(*result) * factor;
            effects.push_back({um, why + " made the instrument read " + series->error.axis + " " + length_words(subject, std::abs(um), 1) +
                                       long_or_short(um) + over + state_suffix(series->state)});
        };
        const auto* evaluated = evaluate::find_series(subject.evaluation, applied.series);
        const bool corrected = evaluated && evaluated->air_correction && evaluate::value_of(*evaluated->air_correction);
        if (length) {
            const std::string over = " over " + distance_text(subject, 1000 * *length);
            if (!corrected) add(applied.air_um_per_m, *length, "the air it was given", over);
            add(applied.expansion_um_per_m, *length, "the expansion that it corrected", over);
        }
        add(applied.dead_path_um, 1, "its dead path", "");
    }
}

std::vector<Effect> effects_of(const Subject& subject) {
    std::vector<Effect> effects;
    const auto& surroundings = subject.evaluation.environment;
    add_applied(effects, subject);
    for (const auto& drift : surroundings.drift)
        effects.push_back({drift.um, drift.quantity + " moved by " + length_words(subject, drift.um, 1) + " at rest" +
                                         (drift.minutes ? " in " + whole(subject, *drift.minutes, 0, "min") : std::string())});
    const bool told = std::ranges::any_of(surroundings.applied, [](const auto& applied) {
        return applied.air_um_per_m && std::holds_alternative<double>(*applied.air_um_per_m);
    });
    const auto* air = evaluate::value_of(surroundings.air);
    if (!told && air)
        for (const auto& over : air->change_over_travel)
            effects.push_back({over.um, "the refractive index of air changed by " + per_metre(subject, air->change_um_per_m()) + ", " +
                                            length_words(subject, over.um, 1) + " over " + distance_text(subject, 1000 * over.length_m) +
                                            " of " + over.axis + ", unless the instrument corrected it"});
    return effects;
}

/// Where no effect can be put into numbers, the lead says how warm it was.
Text plain_lead(const Subject& subject) {
    if (!subject.document.environment) return Text("The environment is not recorded.");
    std::optional<double> low, high;
    for (const auto& sample : subject.document.environment->samples)
        if (sample.air_C)
            low = std::min(low.value_or(*sample.air_C), *sample.air_C), high = std::max(high.value_or(*sample.air_C), *sample.air_C);
    if (!low) return Text("The record has no air values; their effect on lengths is not evaluated.");
    const bool lengths =
        std::ranges::any_of(subject.document.series, [](const auto& series) { return series.unit.dimension == units::Dimension::Length; });
    return Text("Air " + units::number(*low, 1, style_of(subject)) + " to " + whole(subject, *high, 1, "°C") +
                (lengths ? "; its effect on lengths is not evaluated." : "; no effect on an angle test."));
}

Text surroundings_lead(const Subject& subject) {
    const auto effects = effects_of(subject);
    if (effects.empty()) return plain_lead(subject);
    const auto& largest = *std::ranges::max_element(effects, {}, [](const Effect& effect) { return std::abs(effect.um); });
    return Text("Largest uncorrected environmental effect: " + largest.words + ".");
}

/// The run during which the surroundings moved most.
std::optional<std::string> movement(const Subject& subject) {
    const auto& all = subject.evaluation.environment.during_runs;
    if (all.empty()) return std::nullopt;
    const auto& worst = *std::ranges::max_element(all, {}, &evaluate::RunSurroundings::index_um_per_m);
    const auto* series = document::find_series(subject.document, worst.series);
    const auto largest = [&](auto member) { return (*std::ranges::max_element(all, {}, member)).*member; };
    return "During one run the air moved by at most " + whole(subject, largest(&evaluate::RunSurroundings::air_K), 2, "K") +
           ", the material by " + whole(subject, largest(&evaluate::RunSurroundings::machine_K), 2, "K") + ", the index by " +
           whole(subject, worst.index_um_per_m, 3, "µm/m") +
           (series && worst.index_um_per_m > 0
                ? " (" + run_words(*series, worst.run) + " of " + series->error.text() + state_suffix(series->state) + ")."
                : ".");
}

Text surroundings_body(const Subject& subject) {
    const auto moved = movement(subject);
    return Text(moved ? *moved : "All numbers follow from the recorded samples.");
}

/// The wavelength that the index is computed for, and whether the document states it.
std::string wavelength_words(const Subject& subject, const evaluate::AirRecord& air) {
    const std::string wavelength = whole(subject, air.vacuum_wavelength_nm, units::decimals_needed(air.vacuum_wavelength_nm, 6), "nm");
    return air.wavelength_stated
               ? "Vacuum wavelength " + wavelength + ", as stated for the instrument."
               : "No vacuum wavelength is stated for the instrument: that of a helium-neon laser, " + wavelength + ", is assumed.";
}

Section surroundings_method(const Subject& subject) {
    BulletList list;
    const auto& surroundings = subject.evaluation.environment;
    if (const auto* air = evaluate::value_of(surroundings.air))
        list.items = {
            Text("Refractive index of air: Ciddor, Applied Optics 35 (1996) 1566, and beside it the modified Edlén equation "
                 "(Birch and Downs, Metrologia 30 (1993) 155 and 31 (1994) 315), both with the vapour pressure as the NIST Engineering "
                 "Metrology Toolbox writes them. " +
                 wavelength_words(subject, *air)),
            Text("An index that rises by one millionth lengthens the reading by 1\u202fµm/m; sensitivities by central differences "
                 "at the mean air.")};
    if (!surroundings.expansion.empty())
        list.items.push_back(
            marked("Differential thermal expansion: coefficient times (mean of the axis's sensors less the reference temperature); *u* = "
                   "length times the size "
                   "of that difference times the coefficient's standard uncertainty (Swyt, J. Res. NIST 99 (1994) 31)."));
    if (!surroundings.applied.empty())
        list.items.emplace_back(
            "Against the record: index at the mean recorded air of the series less that at the air applied; coefficient of the axis less "
            "that applied, times the difference from the reference temperature. Dead path: its length times the largest change of index "
            "since the first sample of the series.");
    if (!surroundings.drift.empty())
        list.items.push_back(
            marked("Environmental variation error E(VE): largest less smallest reading at rest (ISO/TR 230-9:2005 Annex C); "
                   "*u* of one reading is E(VE) / (2\u202f√3), a rectangle (GUM 4.3.7)."));
    return {.heading = "Method", .parts = {list}, .set_as = SetAs::Reference};
}

Text record_caption(const RecordPlot& plot) {
    Text caption("Environment " + span_words(plot.first_day, plot.from, plot.to) + ", by the clock of the record.");
    if (!plot.lanes.empty()) caption.plain(" Grey: runs; solid stroke positive, dashed negative.");
    return caption;
}

}  // namespace

std::optional<EnvironmentOpening> environment(const Subject& subject) {
    const bool samples = subject.document.environment && !subject.document.environment->samples.empty();
    if (!samples && subject.evaluation.environment.drift.empty()) return std::nullopt;
    EnvironmentOpening made;
    made.opening = {
        .label = "Environment", .anchor = "environment", .lead = surroundings_lead(subject), .body = surroundings_body(subject)};
    made.record = environment_plot(subject.document, subject.evaluation, subject.units, style_of(subject));
    if (made.record) made.caption = record_caption(*made.record);
    for (auto tables : {air_section(subject), applied_section(subject), expansion_section(subject), drift_section(subject)}) {
        if (!tables) continue;
        // Tables without a heading stand closer together than sections do.
        const bool follows = tables->heading.empty() && !made.sections.empty();
        if (follows) std::ranges::move(tables->parts, std::back_inserter(made.sections.back().parts));
        else made.sections.push_back(std::move(*tables));
    }
    // The figure says the ranges already.
    if (samples && !made.record) made.sections.push_back({.heading = "Recorded values", .parts = {environment_table(subject)}});
    if (Section words = surroundings_method(subject); !std::get<BulletList>(words.parts[0]).items.empty())
        made.sections.push_back(std::move(words));
    return made;
}

}  // namespace wayfolio::report
