#include "output/structure_tree.hpp"

#include "output/artifacts.hpp"
#include "output/qpdf.hpp"
#include "output/structure_kids.hpp"
#include "output/tag_names.hpp"

#include <fmt/format.h>

#include <map>
#include <stdexcept>

namespace wayfolio::output {

namespace {

struct Element {
    Handle object;
    const TagRecord* record;
};

/// The elements in document order, each with the record of the tag it came from.
void zip(Handle object, const std::vector<TagRecord>& records, std::vector<Element>& elements) {
    if (elements.size() >= records.size()) throw std::logic_error("the structure tree has more elements than were drawn");
    const TagRecord& record = records[elements.size()];
    if (!object.getKey("/S").isNameAndEquals("/" + record.type))
        throw std::logic_error(fmt::format("structure element {} is {}, but {} was drawn", elements.size(),
                                           object.getKey("/S").unparse(), record.type));
    elements.push_back({object, &record});
    for (Handle& kid : element_kids(object)) zip(kid, records, elements);
}

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

void set_link(Handle object, const TagRecord& record) {
    for (Handle kid : kids_of(object)) {
        if (!kid.isDictionary() || !kid.getKey("/Type").isNameAndEquals("/OBJR")) continue;
        kid.getKey("/Obj").replaceKey("/Contents", Handle::newUnicodeString(record.description));
    }
}

/// PDF/UA-1 7.9: every Note has an ID of its own; ISO 32000-1 table 322 then wants a tree of them.
void set_note_ids(Handle root, const std::vector<Element>& elements) {
    Handle names = Handle::newArray();
    for (const Element& element : elements) {
        if (element.record->type != "Note") continue;
        const Handle id = Handle::newString(fmt::format("note-{:06}", names.getArrayNItems() / 2 + 1));
        Element(element).object.replaceKey("/ID", id);
        names.appendItem(id);
        names.appendItem(element.object);
    }
    if (names.getArrayNItems() == 0) return;
    Handle tree = Handle::newDictionary();
    tree.replaceKey("/Names", names);
    root.replaceKey("/IDTree", tree);
}

void set_attributes(const std::vector<Element>& elements) {
    for (const Element& element : elements) {
        const TagRecord& record = *element.record;
        if (record.type == "Figure") set_figure(element.object, record);
        if (record.type == "TH" || record.type == "TD") set_cell(element.object, record);
        if (record.type == "Link") set_link(element.object, record);
    }
}

void join_continued(QPDF& file, const std::vector<Element>& elements) {
    std::map<std::string, Handle> begun;
    for (const Element& element : elements) {
        if (element.record->continues.empty()) continue;
        const auto [first, is_new] = begun.try_emplace(element.record->continues, element.object);
        if (!is_new) move_kids(file, element.object, first->second);
    }
}

}  // namespace

void finish_structure(QPDF& file, const std::vector<TagRecord>& records) {
    Handle root = file.getRoot().getKey("/StructTreeRoot");
    std::vector<Element> elements;
    for (Handle& kid : element_kids(root)) zip(kid, records, elements);
    if (elements.size() != records.size())
        throw std::logic_error(
            fmt::format("{} structure elements were drawn, {} are in the tree", records.size(), elements.size()));
    set_attributes(elements);
    set_note_ids(root, elements);
    for (const Element& element : elements)
        if (element.record->type == artifact_tag) drop_artifact(file, element.object);
    name_artifacts(file);
    join_continued(file, elements);
}

}  // namespace wayfolio::output
