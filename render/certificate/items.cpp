#include "certificate/drafting.hpp"
#include "certificate/quantity.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

void put_manufacturer(XmlWriter& xml, const std::string& maker) {
    if (!is_stated(maker)) return;
    const auto manufacturer = xml.open("dcc:manufacturer");
    put_name(xml, given(maker));
}

void put_machine(Drafting& drafting, const document::Machine& machine) {
    XmlWriter& xml = drafting.xml;
    const auto item = xml.open("dcc:item", {{"id", "machine"}});
    put_name(xml, is_stated(machine.kind) ? given(machine.kind) : ours("Machine"));
    put_lines(xml, "dcc:description", {ours(is_stated(machine.controller) ? "Controller:" : ""), given(machine.controller),
                                       ours(is_stated(machine.condition) ? "Condition:" : ""), given(machine.condition)});
    put_manufacturer(xml, machine.maker);
    if (is_stated(machine.model)) xml.put("dcc:model", machine.model);
    if (!is_stated(machine.serial)) return drafting.lacks("serial number of the machine", "/machine/serial");
    const auto identifications = xml.open("dcc:identifications");
    put_identification(xml, Issuer::Manufacturer, machine.serial, "Serial number");
}

/// Travel and expansion of an axis. U of the coefficient stands as a quantity of its own: si:expandedMU asks for a probability of coverage,
/// which the document does not state.
void put_axis_quantities(Drafting& drafting, const document::Axis& axis) {
    if (!axis.travel && !axis.expansion) return;
    const auto list = drafting.xml.open("dcc:itemQuantities");
    const auto put = [&](const SiQuantity& quantity) { put_quantity(drafting, quantity, "dcc:itemQuantity"); };
    if (axis.travel) {
        const SiPositionUnit unit = si_unit(axis.travel->unit);
        put({.name = "Travel, from", .value = axis.travel->from.in(unit.unit), .unit = unit.spelling});
        put({.name = "Travel, to", .value = axis.travel->to.in(unit.unit), .unit = unit.spelling});
    }
    if (!axis.expansion) return;
    const auto& expansion = *axis.expansion;
    put({.name = "Coefficient of linear thermal expansion", .value = expansion.value, .unit = si::micrometre_per_metre_kelvin});
    if (expansion.expanded_uncertainty)
        put({.name = "Expanded uncertainty of the coefficient",
             .value = expansion.expanded_uncertainty,
             .unit = si::micrometre_per_metre_kelvin,
             .description = {ours(expansion.coverage_factor ? fmt::format("coverage factor {}", *expansion.coverage_factor) : "")}});
}

void put_axis(Drafting& drafting, const std::string& name) {
    XmlWriter& xml = drafting.xml;
    const document::Axis* axis = document::find_axis(drafting.document, name);
    const bool rotary = axis ? axis->kind == document::AxisKind::Rotary : std::string_view("ABC").find(name) != std::string_view::npos;
    const auto item = xml.open("dcc:item", {{"id", axis_item_id(drafting.document, name).value()}});
    put_name(xml, ours("Axis " + name));
    std::string words = rotary ? "rotary axis" : "linear axis";
    if (axis && axis->moves) words += *axis->moves == document::Moves::Tool ? ", moves the tool" : ", moves the workpiece";
    put_lines(xml, "dcc:description", {ours(words)});
    {
        const auto identifications = xml.open("dcc:identifications");
        put_identification(xml, Issuer::Other, name, "Name of the axis by ISO 841");
    }
    if (axis) put_axis_quantities(drafting, *axis);
}

}  // namespace

void put_items(Drafting& drafting) {
    const auto items = drafting.xml.open("dcc:items");
    if (drafting.document.machine) put_machine(drafting, *drafting.document.machine);
    else drafting.lacks("machine with its serial number", "/machine");
    for (const std::string& axis : axes_measured(drafting.document)) put_axis(drafting, axis);
}

}  // namespace wayfolio::certificate
