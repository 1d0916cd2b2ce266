#include "certificate/quantity.hpp"

#include "units/number_text.hpp"

#include <array>
#include <utility>

namespace wayfolio::certificate {
namespace {

constexpr std::array<std::pair<units::DeviationUnit, std::string_view>, 6> known_units{
    {{units::micrometre, si::micrometre},
     {units::millimetre, si::millimetre},
     {units::microradian, si::microradian},
     {units::arcsecond, "\\arcsecond"},
     {units::degree, "\\degree"},
     {units::micrometre_per_metre, si::micrometre_per_metre}}};

void put_expanded(XmlWriter& xml, const Expanded& expanded) {
    const auto univariate = xml.open("si:measurementUncertaintyUnivariate");
    const auto uncertainty = xml.open("si:expandedMU");
    xml.put("si:valueExpandedMU", units::shortest(expanded.value));
    xml.put("si:coverageFactor", units::shortest(expanded.coverage_factor));
    xml.put("si:coverageProbability", units::shortest(expanded.coverage_probability));
}

}  // namespace

SiUnit si_unit(const units::DeviationUnit& written) {
    for (const auto& [unit, spelling] : known_units)
        if (unit == written) return {unit, spelling};
    return {units::micrometre, si::micrometre};
}

SiPositionUnit si_unit(const units::PositionUnit& written) {
    if (written.dimension == units::Dimension::Angle) return {units::position_degree, "\\degree"};
    return {units::position_millimetre, si::millimetre};
}

std::optional<Expanded> expanded_of(const evaluate::ParameterUncertainty* uncertainty, const units::DeviationUnit& unit) {
    if (uncertainty == nullptr) return std::nullopt;
    return Expanded{uncertainty->expanded.in(unit), uncertainty->coverage_factor, uncertainty->coverage};
}

void put_quantity(Drafting& drafting, const SiQuantity& quantity, std::string_view element) {
    XmlWriter& xml = drafting.xml;
    if (!quantity.id.empty()) drafting.ids.insert(quantity.id);
    const auto open = xml.open(element, quantity.id.empty() ? XmlWriter::Attributes{} : XmlWriter::Attributes{{"id", quantity.id}});
    put_name(xml, ours(quantity.name));
    put_lines(xml, "dcc:description", quantity.description);
    if (!quantity.value) return put_lines(xml, "dcc:noQuantity", {ours("not evaluated: " + quantity.reason)});
    const auto real = xml.open("si:real");
    if (!quantity.label.empty()) xml.put("si:label", quantity.label);
    xml.put("si:value", units::shortest(*quantity.value));
    xml.put("si:unit", quantity.unit);
    if (quantity.expanded) put_expanded(xml, *quantity.expanded);
}

void put_quantity(Drafting& drafting, const QuantityList& list) {
    std::string values;
    for (const double value : list.values) values += (values.empty() ? "" : " ") + units::shortest(value);
    const auto open = drafting.xml.open("dcc:quantity");
    put_name(drafting.xml, ours(list.name));
    const auto real = drafting.xml.open("si:realListXMLList");
    drafting.xml.put("si:labelXMLList", list.label);
    drafting.xml.put("si:valueXMLList", values);
    drafting.xml.put("si:unitXMLList", list.unit);
}

}  // namespace wayfolio::certificate
