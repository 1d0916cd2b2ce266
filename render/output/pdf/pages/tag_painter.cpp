#include "output/pdf/pages/tag_painter.hpp"

#include "frame/bounds.hpp"
#include "frame/overloaded.hpp"
#include "frame/walk.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::output {

using frame::Role;

namespace {

using units::point;

/// The ISO 32000-1 (14.8.4) structure type of a role. Not for Plain, Artifact and LinkText, which have no fixed one.
const char* tag_of(Role role) {
    switch (role) {
        case Role::Section: return "Sect";
        case Role::Heading1: return "H1";
        case Role::Heading2: return "H2";
        case Role::Heading3: return "H3";
        case Role::Paragraph: return "P";
        case Role::List: return "L";
        case Role::ListItem: return "LI";
        case Role::ListLabel: return "Lbl";
        case Role::ListBody: return "LBody";
        case Role::Table: return "Table";
        case Role::TableHead: return "THead";
        case Role::TableBody: return "TBody";
        case Role::TableRow: return "TR";
        case Role::HeadCell: return "TH";
        case Role::DataCell: return "TD";
        case Role::Figure: return "Figure";
        case Role::Caption: return "Caption";
        case Role::Note: return "Note";
        case Role::Span: return "Span";
        case Role::Plain:
        case Role::Artifact:
        case Role::LinkText: break;
    }
    throw std::logic_error("this role has no structure type of its own");
}

/// Roles whose element may hold other elements only: text directly in them is a fault.
bool holds_only_elements(Role role) {
    return role == Role::List || role == Role::ListItem || role == Role::Table || role == Role::TableHead ||
           role == Role::TableBody || role == Role::TableRow;
}

/// Roles that stay elements of their own inside a figure; the others are part of its picture.
bool stays_in_figure(Role role) { return role == Role::Caption || role == Role::LinkText || role == Role::Table; }

/// Whether elements will stand among these items.
bool has_structure(const std::vector<frame::Item>& items, bool in_figure) {
    const auto is_element = [&](const frame::Group& group) {
        return group.role != Role::Plain && (!in_figure || stays_in_figure(group.role));
    };
    return !frame::walk(
        items, frame::overloaded{[](const frame::Link&) { return frame::Walk::Stop; },
                                 [&](const frame::Group& group) { return is_element(group) ? frame::Walk::Stop : frame::Walk::On; }});
}

std::vector<frame::Link> links_in(const std::vector<frame::Item>& items) {
    std::vector<frame::Link> links;
    frame::walk(items, [&](const frame::Link& link) { links.push_back(link); });
    return links;
}

/// The items without their links, which the enclosing Link tag has taken.
std::vector<frame::Item> without_links(const std::vector<frame::Item>& items) {
    std::vector<frame::Item> kept;
    for (const frame::Item& item : items) {
        if (std::holds_alternative<frame::Link>(item)) continue;
        kept.push_back(item);
        if (auto* group = std::get_if<frame::Group>(&kept.back())) group->items = without_links(group->items);
    }
    return kept;
}

}  // namespace

TagPainter::TagPainter(Canvas& canvas, TagRecords& records) : canvas_(canvas), records_(records) { open("Document", {}); }

void TagPainter::page(const frame::Frame& frame, std::size_t index) {
    page_height_ = frame.height.in(point);
    page_ = index;
    paper(frame);
    children(frame.items, {"P", artifact_tag});
}

// Cairo keeps the union of all that was drawn on a page as a list of rectangles, and adding to it was a tenth of drawing; with the
// whole page in it from the start there is nothing to add. White on white, so that nobody sees it. Not up to the very edge: what covers
// a whole page makes Cairo forget all that came before it, the open tags too.
void TagPainter::paper(const frame::Frame& frame) {
    mark(artifact_tag, {});
    constexpr double white = 1, inset = 0.5;
    cairo_set_source_rgb(canvas_.cairo(), white, white, white);
    cairo_rectangle(canvas_.cairo(), inset, inset, frame.width.in(point) - 2 * inset, frame.height.in(point) - 2 * inset);
    cairo_fill(canvas_.cairo());
    end();
}

void TagPainter::open(const char* type, TagRecord record) {
    record.type = type;
    record.page_height = page_height_;
    record.page = page_;
    record.marked = false;
    if (!open_.empty()) record.parent = open_.back();
    open_.push_back(records_.size());
    records_.push_back(std::move(record));
}

void TagPainter::mark(const char* type, TagRecord record) {
    open(type, std::move(record));
    records_.back().marked = true;
    cairo_tag_begin(canvas_.cairo(), marking_of(records_.back().type).c_str(), "");
}

void TagPainter::end() {
    const TagRecord& ended = records_[open_.back()];
    if (ended.marked) cairo_tag_end(canvas_.cairo(), marking_of(ended.type).c_str());
    open_.pop_back();
}

void TagPainter::want(Loose kind, const Container& container) {
    // In a figure everything loose is one picture.
    if (container.figure && kind == Loose::Decoration) kind = Loose::Text;
    if (kind == loose_) return;
    if (loose_ != Loose::None) end();
    loose_ = kind;
    if (kind == Loose::None) return;
    const char* tag = kind == Loose::Text ? container.text_tag : container.decoration_tag;
    if (!tag) throw std::logic_error("text stands directly in a list, table or row: it needs a cell or a body around it");
    mark(tag, {});
}

void TagPainter::children(const std::vector<frame::Item>& items, const Container& container) {
    for (const frame::Item& item : items) {
        if (const auto* group = std::get_if<frame::Group>(&item)) {
            child(*group, container);
        } else if (const auto* link = std::get_if<frame::Link>(&item)) {
            want(Loose::None, container);
            lone_link(*link, container);
        } else if (const auto* run = std::get_if<frame::GlyphRun>(&item)) {
            want(Loose::Text, container);
            canvas_.show(*run);
        } else if (const auto* path = std::get_if<frame::Path>(&item)) {
            want(Loose::Decoration, container);
            canvas_.show(*path);
        } else if (const auto* image = std::get_if<frame::Image>(&item)) {
            want(Loose::Decoration, container);
            canvas_.show(*image);
        }
    }
    want(Loose::None, container);
}

void TagPainter::child(const frame::Group& group, const Container& container) {
    // A clip is a bracket of its own in the content stream and must not overlap a marked-content bracket.
    want(Loose::None, container);
    const SavedState saved(canvas_.cairo());
    if (group.clip) canvas_.clip(*group.clip);
    const bool part_of_picture = container.figure && !stays_in_figure(group.role);
    if (group.role == Role::Plain || part_of_picture)
        children(group.items, container);
    else
        structure(group);
}

void TagPainter::structure(const frame::Group& group) {
    if (group.role == Role::LinkText) return link_text(group);
    const bool repeated_head = repeated_ && group.role == Role::TableHead;
    if (group.role == Role::Artifact || repeated_head) {
        if (!links_in(group.items).empty()) throw std::logic_error("a link stands in an artifact, where no reader can reach it");
        mark(artifact_tag, {});
        canvas_.show(group.items);
        return end();
    }
    TagRecord record{.alternative = group.alternative,
                     .scope = group.scope,
                     .column_span = group.column_span,
                     .row_span = group.row_span,
                     .continues = group.continues};
    const bool figure = group.role == Role::Figure;
    if (figure) record.box = group.box ? group.box.value() : frame::bounds(group.items);
    const bool was_repeated = repeated_;
    if (!group.continues.empty()) repeated_ = !begun_.insert(group.continues).second;
    const bool holds_elements = holds_only_elements(group.role) || group.role == Role::Section || has_structure(group.items, figure);
    holds_elements ? open(tag_of(group.role), std::move(record)) : mark(tag_of(group.role), std::move(record));
    if (holds_only_elements(group.role))
        children(group.items, {nullptr, artifact_tag});
    else if (group.role == Role::Section)
        children(group.items, {"P", artifact_tag});
    else if (holds_elements)
        children(group.items, {"Span", artifact_tag, figure});
    else
        canvas_.show(group.items);
    end();
    repeated_ = was_repeated;
}

void TagPainter::link_text(const frame::Group& group) {
    const std::vector<frame::Link> links = links_in(group.items);
    const char* const type = links.empty() ? "Span" : "Link";
    const std::vector<frame::Item> shown = without_links(group.items);
    if (has_structure(shown, /*in_figure=*/false)) {
        open(type, {.links = links});
        children(shown, {"Span", artifact_tag});
    } else {
        mark(type, {.links = links});
        canvas_.show(shown);
    }
    end();
}

void TagPainter::lone_link(const frame::Link& link, const Container& container) {
    // A link is part of a line: between paragraphs it gets one of its own.
    const bool between_paragraphs = container.text_tag && std::string_view(container.text_tag) == "P";
    if (between_paragraphs) open("P", {});
    open("Link", {.links = {link}});
    end();
    if (between_paragraphs) end();
}

}  // namespace wayfolio::output
