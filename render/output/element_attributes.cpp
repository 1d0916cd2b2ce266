#include "output/element_attributes.hpp"

namespace wayfolio::output {

namespace {

Handle bounding_box(const frame::Rect& box, double page_height) {
    Handle numbers = Handle::newArray();
    const auto bottom = page_height - box.bottom().in(units::point), top = page_height - box.top.in(units::point);
    for (const double value : {box.left.in(units::point), bottom, box.right().in(units::point), top})
        numbers.appendItem(Handle::newReal(value, 2));
    return numbers;
}

void set_figure(Handle object, const TagRecord& record) {
    object.replaceKey("/Alt", Handle::newUnicodeString(record.alternative));
    if (!record.box) return;
    Handle layout = Handle::parse("<< /O /Layout /Placement /Block >>");
    layout.replaceKey("/BBox", bounding_box(*record.box, record.page_height));
    object.replaceKey("/A", layout);
}

void set_cell(Handle object, const TagRecord& record) {
    if (record.scope == frame::Scope::None && record.column_span == 1) return;
    Handle attributes = Handle::parse("<< /O /Table >>");
    if (record.scope != frame::Scope::None)
        attributes.replaceKey("/Scope", Handle::newName(record.scope == frame::Scope::Column ? "/Column" : "/Row"));
    if (record.column_span != 1) attributes.replaceKey("/ColSpan", Handle::newInteger(record.column_span));
    object.replaceKey("/A", attributes);
}

}  // namespace

void set_attributes(Handle element, const TagRecord& record) {
    if (record.type == "Figure") set_figure(element, record);
    if (record.type == "TH" || record.type == "TD") set_cell(element, record);
}

}  // namespace wayfolio::output
