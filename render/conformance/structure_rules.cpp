#include "conformance/read/structure.hpp"
#include "conformance/read/unicode_map.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace wayfolio::conformance {

namespace {

/// ISO 32000-1, 14.8.4.
constexpr std::array<std::string_view, 49> standard_types{
    "Document",  "Part",    "Art",   "Sect",    "Div",       "BlockQuote", "Caption", "TOC",     "TOCI",  "Index",
    "NonStruct", "Private", "P",     "H",       "H1",        "H2",         "H3",      "H4",      "H5",    "H6",
    "L",         "LI",      "Lbl",   "LBody",   "Table",     "TR",         "TH",      "TD",      "THead", "TBody",
    "TFoot",     "Span",    "Quote", "Note",    "Reference", "BibEntry",   "Code",    "Link",    "Annot", "Ruby",
    "RB",        "RT",      "RP",    "Warichu", "WT",        "WP",         "Figure",  "Formula", "Form"};

std::string where(const Structure& structure, std::size_t place) {
    return "element " + std::to_string(place) + ", " + structure.elements[place].type;
}

/// A reader that goes by the tags and one that goes by the tree must meet the same thing.
void check_tag(const CheckedFile& subject, const Element& element, const std::string& tag, const std::string& where) {
    Handle object = element.object;
    if (tag != "/" + element.type && !object.getKey("/S").isNameAndEquals(tag))
        subject.fault("content-tags", where, "is tagged " + tag + ", but stands in an element " + element.type);
}

/// ISO 19005-3, 6.2.11.7.3: what means a character of private use says in other words what it is.
void check_private_use(const CheckedFile& subject, const Structure& structure) {
    const auto is_said = [&](int page, int mark) {
        const auto found = structure.marks.find({page, mark});
        int place = found == structure.marks.end() ? -1 : found->second[0];
        while (place >= 0) {
            const Element& element = structure.elements[static_cast<std::size_t>(place)];
            if (Handle object = element.object; object.getKey("/ActualText").isString()) return true;
            place = element.parent;
        }
        return false;
    };
    std::map<QPDFObjGen, std::map<unsigned, std::u32string>> maps;
    int number = 0;
    for (Handle page : subject.file.getAllPages()) {
        Handle fonts = resources_of(page, "/Font");
        for (const Shown& shown : subject.contents[static_cast<std::size_t>(number)].shown) {
            Handle font = fonts.getKey(shown.font);
            if (!font.isDictionary()) continue;
            const auto [map, is_new] = maps.try_emplace(font.getObjGen());
            if (is_new) map->second = unicode_of(font, subject.unpacker);
            const auto meaning = map->second.find(shown.code);
            const bool is_private = meaning != map->second.end() && std::ranges::any_of(meaning->second, is_private_use);
            if (is_private && !shown.has_actual_text && !is_said(number, shown.mark))
                subject.fault("unicode-private", "page " + std::to_string(number + 1), "a character of private use, and no word for it");
        }
        ++number;
    }
}

/// Marked content of the pages, the structure and the parent tree must say the same.
void check_marks(const CheckedFile& subject, const Structure& structure) {
    Handle tree = subject.root().getKey("/StructTreeRoot").getKey("/ParentTree");
    int number = 0;
    for (Handle page : subject.file.getAllPages()) {
        const std::string name = "page " + std::to_string(number + 1);
        Handle parents = page.getKey("/StructParents").isInteger()
                             ? entry_of(subject.file, tree, page.getKey("/StructParents").getIntValue())
                             : Handle::newNull();
        for (const auto& [mark, content] : subject.contents[static_cast<std::size_t>(number)].marks) {
            const auto found = structure.marks.find({number, mark});
            const std::string what = "marked content " + std::to_string(mark);
            if (found != structure.marks.end())
                check_tag(subject, structure.elements[static_cast<std::size_t>(found->second[0])], content.tag, name + ", " + what);
            if (found == structure.marks.end()) subject.fault("content-tagged", name, what + " is in no element");
            else if (found->second.size() > 1) subject.fault("content-once", name, what + " is in several elements");
            else if (Handle owner = structure.elements[static_cast<std::size_t>(found->second[0])].object;
                     !parents.isArray() || mark >= parents.getArrayNItems() || parents.getArrayItem(mark).getObjGen() != owner.getObjGen())
                subject.fault("parent-tree", name, what + " leads to another element or to none");
        }
        ++number;
    }
}

void check_types(const CheckedFile& subject, const Structure& structure) {
    const auto is_root = [](const Element& element) { return element.parent < 0; };
    if (std::ranges::count_if(structure.elements, is_root) != 1 || structure.elements.front().type != "Document")
        subject.fault("structure-root", "structure", "not one Document");
    for (std::size_t i = 0; i < structure.elements.size(); ++i)
        if (std::ranges::find(standard_types, structure.elements[i].type) == standard_types.end())
            subject.fault("structure-types", where(structure, i), "not a standard type");
}

/// The first page of each child of the document; reading may not turn back.
void check_order(const CheckedFile& subject, const Structure& structure) {
    std::vector<int> first(structure.elements.size(), -1);
    for (const auto& [at, elements] : structure.marks)
        for (int element : elements)
            for (; element >= 0 && first[static_cast<std::size_t>(element)] < 0;
                 element = structure.elements[static_cast<std::size_t>(element)].parent)
                first[static_cast<std::size_t>(element)] = at.first;
    int reached = 0;
    for (std::size_t i = 0; i < structure.elements.size(); ++i) {
        if (structure.elements[i].parent != 0 || first[i] < 0) continue;
        if (first[i] < reached)
            subject.fault("structure-order", where(structure, i),
                          "is read after page " + std::to_string(reached + 1) + ", but begins on page " + std::to_string(first[i] + 1));
        reached = std::max(reached, first[i]);
    }
}

void check_headings(const CheckedFile& subject, const Structure& structure) {
    int level = 0;
    for (std::size_t i = 0; i < structure.elements.size(); ++i) {
        const std::string& type = structure.elements[i].type;
        if (type.size() != 2 || type[0] != 'H' || type[1] < '1' || type[1] > '6') continue;
        const int next = type[1] - '0';
        if (next > level + 1) subject.fault("heading-levels", where(structure, i), "follows level " + std::to_string(level));
        level = next;
    }
}

void check_figures_and_notes(const CheckedFile& subject, const Structure& structure) {
    std::set<std::string> ids;
    for (std::size_t i = 0; i < structure.elements.size(); ++i) {
        const Element& element = structure.elements[i];
        Handle object = element.object;
        if (element.type == "Figure") {
            if (!object.getKey("/Alt").isString() || object.getKey("/Alt").getUTF8Value().empty())
                subject.fault("figure-alternative", where(structure, i), "no alternative text");
            Handle box = attribute(element, "/Layout", "/BBox");
            if (!box.isArray() || box.getArrayNItems() != 4) subject.fault("figure-box", where(structure, i), "no bounding box");
        }
        if (element.type == "Note" && (!object.getKey("/ID").isString() || !ids.insert(object.getKey("/ID").getStringValue()).second))
            subject.fault("note-ids", where(structure, i), "no ID of its own");
    }
}

}  // namespace

void check_structure(const CheckedFile& subject) {
    const Structure structure = structure_of(subject);
    if (structure.elements.empty()) return subject.fault("structure-root", "catalog", "no structure");
    check_types(subject, structure);
    check_marks(subject, structure);
    check_private_use(subject, structure);
    check_order(subject, structure);
    check_headings(subject, structure);
    check_figures_and_notes(subject, structure);
    check_tables(subject, structure);
}

}  // namespace wayfolio::conformance
