#include "evaluate/uncertainty/contributors.hpp"

#include "evaluate/surroundings/surroundings.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::evaluate {

namespace {

using document::Contributor;
using document::Distribution;
using document::Influence;

std::string_view distribution_word(Distribution distribution) {
    switch (distribution) {
        case Distribution::Normal:
            return "normal";
        case Distribution::Rectangular:
            return "rectangular";
        case Distribution::Triangular:
            return "triangular";
        case Distribution::UShaped:
            return "u_shaped";
    }
    return "normal";
}

/// Half-width over standard uncertainty: GUM 4.3.7, 4.3.9, H.1.
double half_width_divisor(Distribution distribution) {
    switch (distribution) {
        case Distribution::Triangular:
            return std::sqrt(6.0);
        case Distribution::UShaped:
            return std::sqrt(2.0);
        case Distribution::Normal:
        case Distribution::Rectangular:
            break;
    }
    return std::sqrt(3.0);
}

double standard_of(const Contributor& contributor) {
    switch (contributor.form) {
        case Contributor::Form::Standard:
            return contributor.value;
        case Contributor::Form::HalfWidth:
            return contributor.value / half_width_divisor(contributor.distribution);
        case Contributor::Form::Expanded:
            break;
    }
    return contributor.value / contributor.coverage_factor.value_or(2);
}

std::optional<Contributed> listed(const Contributor& contributor, units::Dimension dimension) {
    const auto unit = units::deviation_unit(contributor.unit);
    if (!unit) return std::nullopt;
    Contributed made;
    made.per_metre = dimension == units::Dimension::Length && unit->dimension == units::Dimension::Angle;
    made.correlated = contributor.correlated;
    made.component.name = contributor.name;
    made.component.basis = contributor.basis;
    // Limits called normal count as rectangular, the wider of the usual readings.
    const bool limits = contributor.form == Contributor::Form::HalfWidth && contributor.distribution == Distribution::Normal;
    made.component.distribution = distribution_word(limits ? Distribution::Rectangular : contributor.distribution);
    made.component.standard = standard_of(contributor) * unit->in_base;
    made.component.degrees_of_freedom = contributor.degrees_of_freedom;
    made.component.influence = contributor.influence;
    return made;
}

const std::optional<document::StatedCapability>& certificate_for(const document::Instrument& instrument,
                                                                const SeriesEvaluation& series) {
    if (series.unit.dimension == units::Dimension::Angle) return instrument.angle;
    return series.kind == SeriesKind::Positioning ? instrument.positioning : instrument.straightness;
}

Component certified(const char* name, const document::Instrument& instrument, double expanded) {
    Component component;
    component.name = name;
    component.distribution = "normal";
    component.basis = instrument.certificate.empty() ? "certificate of the instrument" : "certificate " + instrument.certificate;
    component.standard = expanded / instrument.coverage_factor.value_or(2);
    component.influence = Influence::Instrument;
    return component;
}

void add_instrument(SeriesContributors& contributors, const document::Document& document, const SeriesEvaluation& series) {
    const document::Series* source = document::find_series(document, series.id);
    const document::Instrument* instrument = source ? document::find_instrument(document, source->instrument) : nullptr;
    if (!instrument) return;
    const auto& stated = certificate_for(*instrument, series);
    if (!stated) return;
    if (stated->constant > 0) contributors.instrument_constant = certified("instrument, constant", *instrument, stated->constant);
    if (stated->per_metre > 0)
        contributors.instrument_per_metre = certified("instrument, length-proportional", *instrument, stated->per_metre);
}

/// L |T - 20| u_alpha (Swyt, J. Res. NIST 99 (1994) 31), unless the document says that the readings were not corrected for
/// expansion: they then hold for the temperature they were taken at. How well the sensors know the temperature is for the listed
/// contributors to say.
void add_thermal(SeriesContributors& contributors, const document::Document& document, const SeriesEvaluation& series) {
    const document::Series* source = document::find_series(document, series.id);
    if (series.kind != SeriesKind::Positioning || series.error.axis_is_rotary() || !source) return;
    if (source->expansion_correction && !source->expansion_correction->applied) {
        contributors.notes.emplace_back(
            "Readings were not corrected for thermal expansion: they hold for the temperature of the test.");
        return;
    }
    for (const AxisExpansion& axis : evaluate_expansion(document)) {
        if (axis.axis != series.error.axis || !axis.standard || !axis.length_m || !(axis.standard->from_coefficient > 0))
            continue;
        Contributed coefficient;
        coefficient.per_metre = true;
        coefficient.component.name = "expansion coefficient";
        coefficient.component.distribution = "normal";
        coefficient.component.basis = "stated for the axis, times the recorded departure from the reference temperature";
        coefficient.component.standard = axis.standard->from_coefficient / *axis.length_m;
        coefficient.component.influence = Influence::ExpansionCoefficient;
        contributors.listed.push_back(std::move(coefficient));
    }
}

/// What the document's contributors take the place of, with the name of the first that does.
using Replaced = std::map<Influence, std::string>;

Replaced replaced_by(const std::vector<Contributed>& listed) {
    Replaced replaced;
    for (const Contributed& contributed : listed)
        if (contributed.component.influence) replaced.emplace(*contributed.component.influence, contributed.component.name);
    return replaced;
}

void note_replaced(SeriesContributors& contributors, const Replaced& replaced, Influence influence) {
    contributors.notes.push_back(fmt::format("“{}” of the document takes the place of {}, which is not counted beside it.",
                                             replaced.at(influence), document::influence_name(influence)));
}

/// One thing is counted once: what a listed contributor covers is taken out of the program's own.
void give_way(SeriesContributors& contributors, const Replaced& replaced) {
    if (replaced.contains(Influence::Instrument) && (contributors.instrument_constant || contributors.instrument_per_metre)) {
        contributors.instrument_constant.reset();
        contributors.instrument_per_metre.reset();
        note_replaced(contributors, replaced, Influence::Instrument);
    }
    if (replaced.contains(Influence::Drift) && contributors.drift) {
        contributors.drift.reset();
        note_replaced(contributors, replaced, Influence::Drift);
    }
}

/// Whoever lists contributors sees what stands beside them.
void note_own(SeriesContributors& contributors, std::size_t from_document) {
    std::vector<std::string> own;
    for (std::size_t i = from_document; i < contributors.listed.size(); ++i) own.push_back(contributors.listed[i].component.name);
    if (contributors.drift) own.push_back(contributors.drift->name);
    if (from_document > 0 && !own.empty())
        contributors.notes.push_back(fmt::format("Counted beside the input quantities of the document: {}.", fmt::join(own, ", ")));
}

Component summed(std::vector<Component> parts) {
    Component component;
    component.law = Law::Sum;
    component.parts = std::move(parts);
    return component;
}

Component over_length(const Contributed& contributed, double length_m) {
    Component component = contributed.component;
    component.per_metre = contributed.per_metre;
    if (contributed.per_metre) component.sensitivity *= length_m;
    return component;
}

/// Contributors of one name together, in the order of their first one.
std::vector<std::vector<Contributed>> groups_of(const std::vector<Contributed>& listed) {
    std::vector<std::vector<Contributed>> groups;
    for (const Contributed& contributed : listed) {
        const auto known = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
            return !contributed.correlated.empty() && group.front().correlated == contributed.correlated;
        });
        if (known == groups.end())
            groups.push_back({contributed});
        else
            known->push_back(contributed);
    }
    return groups;
}

Component added(const std::vector<Contributed>& group, double length_m) {
    if (group.size() == 1) return over_length(group.front(), length_m);
    std::vector<Component> parts;
    for (const Contributed& contributed : group) parts.push_back(over_length(contributed, length_m));
    Component sum = summed(std::move(parts));
    sum.name = group.front().correlated;
    return sum;
}

}  // namespace

std::optional<Component> drift_of(const document::Document& document, const SeriesEvaluation& series) {
    if (series.unit.dimension == units::Dimension::Angle) return std::nullopt;  // drift records are in µm
    std::optional<Component> largest;
    for (const DriftEvaluation& record : evaluate_drift(document)) {
        if (record.axis != series.error.axis || record.quantity != series.error.text()) continue;
        if (largest && largest->standard >= record.standard_um) continue;
        largest = Component{.name = "drift at rest",
                            .basis = "record with the machine at rest: its range over 2\u202f√3",
                            .distribution = "rectangular",
                            .standard = record.standard_um,
                            .influence = Influence::Drift};
    }
    return largest;
}

SeriesContributors contributors_of(const document::Document& document, const SeriesEvaluation& series) {
    SeriesContributors contributors;
    add_instrument(contributors, document, series);
    for (const Contributor& contributor : document.uncertainty.contributors) {
        const auto& symbols = contributor.applies_to;
        if (std::find(symbols.begin(), symbols.end(), series.error.text()) == symbols.end()) continue;
        if (auto made = listed(contributor, series.unit.dimension)) contributors.listed.push_back(*std::move(made));
    }
    if (!contributors.enough()) return contributors;
    const Replaced replaced = replaced_by(contributors.listed);
    const std::size_t from_document = contributors.listed.size();
    if (!contributors.instrument_constant && !contributors.instrument_per_metre && !replaced.contains(Influence::Instrument))
        contributors.notes.emplace_back(
            "The document states no uncertainty of the instrument: the budget has only the listed input quantities.");
    add_thermal(contributors, document, series);
    if (contributors.listed.size() > from_document && replaced.contains(Influence::ExpansionCoefficient)) {
        contributors.listed.resize(from_document);
        note_replaced(contributors, replaced, Influence::ExpansionCoefficient);
    }
    contributors.drift = drift_of(document, series);
    give_way(contributors, replaced);
    note_own(contributors, from_document);
    if (contributors.drift)
        contributors.notes.emplace_back(
            "Drift during the runs is partly in their standard deviation too: counting both is on the safe side.");
    return contributors;
}

std::vector<Component> systematic_parts(const SeriesContributors& contributors, double length_m) {
    std::vector<Component> certificate, parts;
    if (contributors.instrument_per_metre) {
        certificate.push_back(*contributors.instrument_per_metre);
        certificate.back().sensitivity = length_m;
        certificate.back().per_metre = true;
    }
    if (contributors.instrument_constant) certificate.push_back(*contributors.instrument_constant);
    if (certificate.size() > 1) {
        Component sum = summed(std::move(certificate));
        sum.name = "certificate of the instrument";
        parts.push_back(std::move(sum));
    } else {
        parts = std::move(certificate);
    }
    for (const auto& group : groups_of(contributors.listed)) parts.push_back(added(group, length_m));
    return parts;
}

}  // namespace wayfolio::evaluate
