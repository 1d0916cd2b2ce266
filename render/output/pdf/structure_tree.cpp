#include "output/pdf/structure_tree.hpp"

#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace wayfolio::output {

namespace {

std::string attributes_of_figure(const TagRecord& record) {
    std::string words = " /Alt " + text_string(record.alternative);
    if (!record.box) return words;
    const frame::Rect& box = *record.box;
    const double bottom = record.page_height - box.bottom().in(units::point), top = record.page_height - box.top.in(units::point);
    return words + fmt::format(" /A <</O /Layout /Placement /Block /BBox [{:.2f} {:.2f} {:.2f} {:.2f}]>>", box.left.in(units::point),
                               bottom, box.right().in(units::point), top);
}

std::string attributes_of_cell(const TagRecord& record) {
    std::string words;
    if (record.scope != frame::Scope::None) words += record.scope == frame::Scope::Column ? " /Scope /Column" : " /Scope /Row";
    if (record.column_span != 1) words += fmt::format(" /ColSpan {}", record.column_span);
    if (record.row_span != 1) words += fmt::format(" /RowSpan {}", record.row_span);
    return words.empty() ? words : fmt::format(" /A <</O /Table{}>>", words);
}

/// What an element says of itself, as the entries of a PDF dictionary: alternative text and box of a figure, scope and spans of a table
/// cell, words in place of what a span shows.
std::string attributes_of(const TagRecord& record) {
    if (record.type == "Figure") return attributes_of_figure(record);
    if (record.type == "TH" || record.type == "TD") return attributes_of_cell(record);
    if (record.type == "Span" && !record.alternative.empty()) return " /ActualText " + text_string(record.alternative);
    return {};
}

/// A rectangle in points from the page's lower left.
struct Area {
    double left, bottom, right, top;
};

Area area_of(const frame::Rect& box, double page_height) {
    return {box.left.in(units::point), page_height - box.bottom().in(units::point), box.right().in(units::point),
            page_height - box.top.in(units::point)};
}

/// The rectangle around all, and where they are several, each by its corners against the clock.
std::string places(const TagRecord& link) {
    std::string corners;
    Area around = area_of(link.links.front().box, link.page_height);
    for (const frame::Link& one : link.links) {
        const auto [left, bottom, right, top] = area_of(one.box, link.page_height);
        around = {std::min(around.left, left), std::min(around.bottom, bottom), std::max(around.right, right), std::max(around.top, top)};
        corners +=
            fmt::format(" {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f}", left, bottom, right, bottom, right, top, left, top);
    }
    return fmt::format("/Rect [{:.2f} {:.2f} {:.2f} {:.2f}]{}", around.left, around.bottom, around.right, around.top,
                       link.links.size() > 1 ? fmt::format(" /QuadPoints [{}]", corners) : "");
}

/// A URI in printable ASCII: all else is percent-encoded (RFC 3986, 2.1).
std::string escaped_uri(const std::string& uri) {
    constexpr std::string_view special = "'\"\\()<>^`{|}";
    std::string escaped;
    for (const char c : uri) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte > 0x20 && byte < 0x7f && special.find(c) == std::string_view::npos;
        escaped += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
    }
    return escaped;
}

/// The annotation that makes a link of an element: over all its areas, without a border, printed (ISO 32000-1 12.5.6.5).
/// @param link a record that has links
/// @param owner key of its element in the parent tree
std::string link_annotation(const TagRecord& link, int owner, const std::map<std::string, Destination>& destinations,
                            const std::vector<int>& page_objects) {
    const frame::Link& first = link.links.front();
    std::string leads_to;
    if (!first.uri.empty()) leads_to = fmt::format("/A <</Type /Action /S /URI /URI ({})>>", escaped_uri(first.uri));
    else if (const auto found = destinations.find(first.destination); found != destinations.end())
        leads_to = "/Dest " + in_words(found->second, page_objects);
    else throw std::logic_error("a link goes to \"" + first.destination + "\", which no group has as its anchor");
    constexpr int printed = 4;  // ISO 32000-1 table 165
    return fmt::format("<</Type /Annot /Subtype /Link {} /Border [0 0 0] {} /F {} /StructParent {} /Contents {}>>", places(link), leads_to,
                       printed, owner, text_string(first.description));
}

/// For each record the number of its marked content on its page; none for an element that holds others.
std::vector<std::optional<int>> marked_content_numbers(const TagRecords& records) {
    std::map<std::size_t, int> next;
    std::vector<std::optional<int>> numbers;
    for (const TagRecord& record : records) numbers.push_back(record.marked ? std::optional(next[record.page]++) : std::nullopt);
    return numbers;
}

/// An element of the tree. Several records make one element when it continues over pages.
struct Element {
    int number;                       ///< of its object
    std::string words;                ///< its dictionary without kids and end
    std::optional<std::size_t> page;  ///< of its first marked content
    std::string kids;
};

/// Most elements have one kid, the number of their marked content, which needs no array (ISO 32000-1 table 323).
std::string kids_of(const Element& element) {
    if (element.kids.empty()) return {};
    const std::string_view first = std::string_view(element.kids).substr(1);
    if (first.find_first_not_of("0123456789") == std::string_view::npos) return fmt::format(" /K {}", first);
    return fmt::format(" /K [{}]", element.kids);
}

/// Builds the tree in the order of the records.
class TreeBuilder {
public:
    TreeBuilder(const TagRecords& records, const std::map<std::string, Destination>& destinations,
                const std::vector<int>& page_objects, Objects& objects)
        : records_(records), destinations_(destinations), pages_(page_objects), objects_(objects),
          numbers_(marked_content_numbers(records)), root_(objects.number()), of_record_(records.size()), parents_(page_objects.size()),
          annotations_(page_objects.size()) {
        elements_.reserve(records.size());
    }

    StructureTree build() {
        for (std::size_t i = 0; i < records_.size(); ++i) {
            if (records_[i].type == artifact_tag) parents_[records_[i].page] += " null";
            else element(i);
        }
        for (const Element& element : elements_)
            objects_.put(element.number,
                         fmt::format("<<{}{}>>", element.words, kids_of(element)));
        objects_.put(root_, root());
        return {root_, std::move(annotations_)};
    }

private:
    void element(std::size_t i) {
        const TagRecord& record = records_[i];
        const bool is_new = record.continues.empty() || begun_.try_emplace(record.continues, elements_.size()).second;
        of_record_[i] = is_new ? elements_.size() : begun_.at(record.continues);
        if (is_new) elements_.push_back(new_element(record));
        Element& here = elements_[of_record_[i]];
        if (!record.links.empty()) add_annotation(here, record);
        if (numbers_[i]) add_marked_content(here, record.page, *numbers_[i]);
    }

    Element new_element(const TagRecord& record) {
        const int number = objects_.number();
        Element* parent = record.parent ? &elements_[of_record_[*record.parent]] : nullptr;
        std::string words =
            fmt::format("/S /{} /P {}{}", record.type, reference(parent ? parent->number : root_), attributes_of(record));
        if (record.type == "Note") words += " /ID " + note_id(number);
        (parent ? parent->kids : top_) += " " + reference(number);
        return {number, std::move(words), {}, {}};
    }

    /// A page other than that of the element is named beside the number.
    void add_marked_content(Element& element, std::size_t page, int number) {
        parents_[page] += " " + reference(element.number);
        const std::string page_reference = reference(pages_[page]);
        if (!element.page) {
            element.page = page;
            element.words += " /Pg " + page_reference;
        }
        element.kids +=
            element.page == page ? fmt::format(" {}", number) : fmt::format(" <</Type /MCR /Pg {} /MCID {}>>", page_reference, number);
    }

    /// The keys of annotations in the parent tree follow those of the pages.
    void add_annotation(Element& element, const TagRecord& record) {
        const int key = static_cast<int>(pages_.size()) + annotations_count_++;
        const int number = objects_.add(link_annotation(record, key, destinations_, pages_));
        annotations_[record.page].push_back(number);
        element.kids += fmt::format(" <</Type /OBJR /Pg {} /Obj {}>>", reference(pages_[record.page]), reference(number));
        owners_ += fmt::format(" {} {}", key, reference(element.number));
    }

    /// PDF/UA-1 7.9: every Note has an ID of its own; ISO 32000-1 table 322 then wants a tree of them.
    std::string note_id(int number) {
        const std::string id = fmt::format("(note-{:06})", ++notes_count_);
        notes_ += fmt::format(" {} {}", id, reference(number));
        return id;
    }

    std::string root() {
        std::string pages;
        for (std::size_t page = 0; page < pages_.size(); ++page) pages += fmt::format(" {} [{}]", page, parents_[page]);
        return fmt::format("<</Type /StructTreeRoot /K [{}] /ParentTree <</Nums [{}{}]>>{}>>", top_, pages, owners_,
                           notes_.empty() ? "" : fmt::format(" /IDTree <</Names [{}]>>", notes_));
    }

    const TagRecords& records_;
    const std::map<std::string, Destination>& destinations_;
    const std::vector<int>& pages_;
    Objects& objects_;
    std::vector<std::optional<int>> numbers_;
    int root_;
    std::vector<Element> elements_;
    std::vector<std::size_t> of_record_;         ///< the element that each record became a part of
    std::map<std::string, std::size_t> begun_;   ///< elements that continue over pages
    std::string top_;                            ///< elements without a parent
    std::vector<std::string> parents_;           ///< per page: who its marked content belongs to
    std::vector<std::vector<int>> annotations_;  ///< per page
    std::string owners_;                         ///< the part of the parent tree that speaks of annotations
    int annotations_count_ = 0;
    std::string notes_;                          ///< IDs and notes by turns
    int notes_count_ = 0;
};

}  // namespace

StructureTree structure_tree(const TagRecords& records, const std::map<std::string, Destination>& destinations,
                             const std::vector<int>& page_objects, Objects& objects) {
    return TreeBuilder(records, destinations, page_objects, objects).build();
}

}  // namespace wayfolio::output
