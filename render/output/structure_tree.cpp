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
    int number;                       ///< of its object
    std::string words;                ///< its dictionary without kids and end
    std::optional<std::size_t> page;  ///< of its first marked content
    std::string kids;
};

std::string reference(int number) { return fmt::format("{} 0 R", number); }

/// Builds the tree in the order of the records, as text: it has thousands of elements, each of which says little.
class TreeBuilder {
public:
    TreeBuilder(QPDF& file, const std::vector<TagRecord>& records, const std::vector<Handle>& slots)
        : records_(records), slots_(slots), pages_(file.getAllPages()), numbers_(marked_content_numbers(records)),
          root_(file.getRoot().getKey("/StructTreeRoot").getObjectID()), of_record_(records.size()), parents_(pages_.size()) {
        elements_.reserve(records.size());
        for (Handle page : pages_) {
            const Handle annotations = page.getKey("/Annots");
            annotations_.push_back(Handle(annotations).isArray() ? Handle(annotations).getArrayAsVector() : std::vector<Handle>{});
        }
    }

    /// The elements and the root of the tree.
    ObjectTexts build() {
        for (std::size_t i = 0; i < records_.size(); ++i)
            records_[i].type == artifact_tag ? artifact(i) : element(i);
        ObjectTexts texts;
        for (const Element& element : elements_)
            texts[element.number] = fmt::format("<<{}{}>>", element.words, element.kids.empty() ? "" : fmt::format(" /K [{}]", element.kids));
        texts[root_] = root();
        return texts;
    }

private:
    void artifact(std::size_t i) {
        if (!records_[i].leaf) throw std::logic_error("an artifact holds something but marked content");
        parents_[records_[i].page] += " null";
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

    Element new_element(const TagRecord& record) {
        const int number = slots_[elements_.size()].getObjectID();
        Element* parent = record.parent ? &elements_[of_record_[*record.parent]] : nullptr;
        std::string words = fmt::format("/Type /StructElem /S /{} /P {}{}", record.type, reference(parent ? parent->number : root_), attributes_of(record));
        if (record.type == "Note") words += " /ID " + note_id(number);
        (parent ? parent->kids : top_) += " " + reference(number);
        return {number, std::move(words), {}, {}};
    }

    /// A page other than that of the element is named beside the number.
    void add_marked_content(Element& element, std::size_t page, int number) {
        parents_[page] += " " + reference(element.number);
        const std::string page_reference = reference(pages_[page].getObjectID());
        if (!element.page) {
            element.page = page;
            element.words += " /Pg " + page_reference;
        }
        element.kids += element.page == page ? fmt::format(" {}", number) : fmt::format(" <</Type /MCR /Pg {} /MCID {}>>", page_reference, number);
    }

    /// Cairo lists the annotations of a page in the order of its Link tags.
    void add_annotation(Element& element, const TagRecord& record) {
        auto& waiting = annotations_[record.page];
        if (waiting.empty()) throw std::logic_error(fmt::format("page {} has fewer links than were drawn", record.page + 1));
        Handle annotation = waiting.front();
        waiting.erase(waiting.begin());
        annotation.replaceKey("/Contents", Handle::newUnicodeString(record.description));
        element.kids += fmt::format(" <</Type /OBJR /Obj {}>>", annotation.unparse());
        owners_.emplace(annotation.getKey("/StructParent").getIntValue(), reference(element.number));
    }

    /// PDF/UA-1 7.9: every Note has an ID of its own; ISO 32000-1 table 322 then wants a tree of them.
    std::string note_id(int number) {
        const std::string id = fmt::format("(note-{:06})", ++notes_count_);
        notes_ += fmt::format(" {} {}", id, reference(number));
        return id;
    }

    std::string root() {
        for (std::size_t page = 0; page < pages_.size(); ++page)
            if (!parents_[page].empty()) owners_.emplace(pages_[page].getKey("/StructParents").getIntValue(), fmt::format("[{}]", parents_[page]));
        std::string numbers;
        for (const auto& [key, owner] : owners_) numbers += fmt::format(" {} {}", key, owner);
        return fmt::format("<</Type /StructTreeRoot /K [{}] /ParentTree <</Nums [{}]>>{}>>", top_, numbers, notes_.empty() ? "" : fmt::format(" /IDTree <</Names [{}]>>", notes_));
    }

    const std::vector<TagRecord>& records_;
    const std::vector<Handle>& slots_;                 ///< Cairo's elements: their numbers become those of ours
    std::vector<Handle> pages_;
    std::vector<std::optional<int>> numbers_;
    int root_;
    std::vector<Element> elements_;
    std::vector<std::size_t> of_record_;               ///< the element that each record became a part of
    std::map<std::string, std::size_t> begun_;         ///< elements that continue over pages
    std::string top_;                                  ///< elements without a parent
    std::vector<std::string> parents_;                 ///< per page: who its marked content belongs to
    std::vector<std::vector<Handle>> annotations_;     ///< per page: those no link has taken yet
    std::map<long long, std::string> owners_;          ///< the parent tree
    std::string notes_;                                ///< IDs and notes by turns
    int notes_count_ = 0;
};

/// Cairo's lists of who owns the marked content of each page: never read, so that they are not even parsed.
void drop_owners(QPDF& file) {
    Handle numbers = file.getRoot().getKey("/StructTreeRoot").getKey("/ParentTree").getKey("/Nums");
    for (int i = 1; i < numbers.getArrayNItems(); i += 2) file.replaceObject(numbers.getArrayItem(i).getObjGen(), Handle::newNull());
}

}  // namespace

ObjectTexts structure_tree(QPDF& file, const std::string& drawn, const std::vector<TagRecord>& records) {
    const std::vector<Handle> slots = objects_beginning(file, drawn, "<< /Type /StructElem\n");
    for (const Handle& slot : slots) file.replaceObject(slot.getObjGen(), Handle::newNull());
    drop_owners(file);
    if (slots.size() != records.size())
        throw std::logic_error(fmt::format("{} structure elements were drawn, {} are in the file", records.size(), slots.size()));
    return TreeBuilder(file, records, slots).build();
}

}  // namespace wayfolio::output
