#include "output/structure_tree.hpp"

#include "output/drawn_objects.hpp"
#include "output/element_attributes.hpp"
#include "output/marked_content.hpp"
#include "output/qpdf.hpp"
#include "output/tag_names.hpp"

#include <fmt/format.h>

#include <map>
#include <stdexcept>

namespace wayfolio::output {

namespace {

/// An element of the tree. Several records make one element when it continues over pages.
struct Element {
    Handle object;
    std::optional<std::size_t> page;  ///< of its first marked content
    std::vector<Handle> kids;
};

/// Builds the tree in the order of the records.
class TreeBuilder {
public:
    TreeBuilder(QPDF& file, const std::vector<TagRecord>& records, const std::vector<Handle>& slots)
        : file_(file), records_(records), slots_(slots), pages_(file.getAllPages()),
          numbers_(number_marked_content(file, records)), root_(file.getRoot().getKey("/StructTreeRoot")), of_record_(records.size()) {
        elements_.reserve(records.size());
        for (Handle page : pages_) {
            parents_.push_back(Handle::newArray());
            const Handle annotations = page.getKey("/Annots");
            annotations_.push_back(Handle(annotations).isArray() ? Handle(annotations).getArrayAsVector() : std::vector<Handle>{});
        }
    }

    /// Hangs the tree under the file's root.
    void build() {
        for (std::size_t i = 0; i < records_.size(); ++i)
            records_[i].type == artifact_tag ? artifact(i) : element(i);
        for (Element& element : elements_)
            if (!element.kids.empty()) element.object.replaceKey("/K", Handle::newArray(element.kids));
        complete_root();
    }

private:
    void artifact(std::size_t i) {
        if (!records_[i].leaf) throw std::logic_error("an artifact holds something but marked content");
        parents_[records_[i].page].appendItem(Handle::newNull());
    }

    void element(std::size_t i) {
        const TagRecord& record = records_[i];
        const bool is_new = record.continues.empty() || begun_.try_emplace(record.continues, elements_.size()).second;
        of_record_[i] = is_new ? elements_.size() : begun_.at(record.continues);
        if (is_new) elements_.push_back(new_element(record));
        Element& here = elements_[of_record_[i]];
        if (record.type == "Link") add_annotation(here, record);
        if (numbers_[i]) add_marked_content(here, record.page, *numbers_[i]);
    }

    /// One object for all uses of a name.
    Handle name(const std::string& word) {
        auto known = names_.find(word);
        if (known == names_.end()) known = names_.emplace(word, Handle::newName(fmt::format("/{}", word))).first;
        return known->second;
    }

    Element new_element(const TagRecord& record) {
        const Handle object = slots_[elements_.size()];
        Element* parent = record.parent ? &elements_[of_record_[*record.parent]] : nullptr;
        file_.replaceObject(object.getObjGen(), Handle::newDictionary({{"/Type", name("StructElem")},
                                                                       {"/S", name(record.type)},
                                                                       {"/P", parent ? parent->object : root_}}));
        set_attributes(object, record);
        if (record.type == "Note") add_note_id(object);
        (parent ? parent->kids : top_).push_back(object);
        return {object, {}, {}};
    }

    /// A page other than that of the element is named beside the number.
    void add_marked_content(Element& element, std::size_t page, int number) {
        parents_[page].appendItem(element.object);
        if (!element.page) {
            element.page = page;
            element.object.replaceKey("/Pg", pages_[page]);
        }
        if (element.page == page) return element.kids.push_back(Handle::newInteger(number));
        element.kids.push_back(Handle::newDictionary(
            {{"/Type", Handle::newName("/MCR")}, {"/Pg", pages_[page]}, {"/MCID", Handle::newInteger(number)}}));
    }

    /// Cairo lists the annotations of a page in the order of its Link tags.
    void add_annotation(Element& element, const TagRecord& record) {
        auto& waiting = annotations_[record.page];
        if (waiting.empty()) throw std::logic_error(fmt::format("page {} has fewer links than were drawn", record.page + 1));
        Handle annotation = waiting.front();
        waiting.erase(waiting.begin());
        annotation.replaceKey("/Contents", Handle::newUnicodeString(record.description));
        element.kids.push_back(Handle::newDictionary({{"/Type", Handle::newName("/OBJR")}, {"/Obj", annotation}}));
        owners_.emplace(annotation.getKey("/StructParent").getIntValue(), element.object);
    }

    /// PDF/UA-1 7.9: every Note has an ID of its own; ISO 32000-1 table 322 then wants a tree of them.
    void add_note_id(Handle note) {
        const Handle id = Handle::newString(fmt::format("note-{:06}", notes_.size() / 2 + 1));
        note.replaceKey("/ID", id);
        notes_.insert(notes_.end(), {id, note});
    }

    void complete_root() {
        for (std::size_t page = 0; page < pages_.size(); ++page)
            if (parents_[page].getArrayNItems() > 0) owners_.emplace(pages_[page].getKey("/StructParents").getIntValue(), parents_[page]);
        std::vector<Handle> numbers;
        for (const auto& [key, owner] : owners_) numbers.insert(numbers.end(), {Handle::newInteger(key), owner});
        root_.replaceKey("/K", Handle::newArray(top_));
        root_.replaceKey("/ParentTree", Handle::newDictionary({{"/Nums", Handle::newArray(numbers)}}));
        if (!notes_.empty()) root_.replaceKey("/IDTree", Handle::newDictionary({{"/Names", Handle::newArray(notes_)}}));
    }

    QPDF& file_;
    const std::vector<TagRecord>& records_;
    const std::vector<Handle>& slots_;                 ///< Cairo's elements, emptied: they become ours
    std::vector<Handle> pages_;
    std::map<std::string, Handle> names_;
    std::vector<std::optional<int>> numbers_;
    Handle root_;
    std::vector<Element> elements_;
    std::vector<std::size_t> of_record_;               ///< the element that each record became a part of
    std::map<std::string, std::size_t> begun_;         ///< elements that continue over pages
    std::vector<Handle> top_;                          ///< elements without a parent
    std::vector<Handle> parents_;                      ///< per page: who its marked content belongs to
    std::vector<std::vector<Handle>> annotations_;     ///< per page: those no link has taken yet
    std::map<long long, Handle> owners_;               ///< the parent tree
    std::vector<Handle> notes_;                        ///< IDs and notes by turns
};

}  // namespace

void finish_structure(QPDF& file, const std::string& drawn, const std::vector<TagRecord>& records) {
    const std::vector<Handle> slots = objects_beginning(file, drawn, "<< /Type /StructElem\n");
    for (const Handle& slot : slots) file.replaceObject(slot.getObjGen(), Handle::newNull());
    if (slots.size() != records.size())
        throw std::logic_error(fmt::format("{} structure elements were drawn, {} are in the file", records.size(), slots.size()));
    TreeBuilder(file, records, slots).build();
}

}  // namespace wayfolio::output
