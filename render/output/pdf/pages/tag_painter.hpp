#pragma once
#include "output/canvas.hpp"
#include "output/pdf/pages/tag_record.hpp"

#include <set>
#include <string>

namespace wayfolio::output {

/// Paints pages on a Cairo PDF surface as marked content, and records the elements that it belongs to: roles become elements, everything
/// else becomes an artifact. Marked content does not nest, so that text beside other elements goes into a Span (or P) of its own.
class TagPainter {
public:
    /// Begins the records with the Document.
    TagPainter(Canvas& canvas, TagRecords& records);

    /// Paints page `index`, counted from 0; call between show_page calls. @throws std::logic_error for items that no structure allows
    void page(const frame::Frame& frame, std::size_t index);

private:
    enum class Loose { None, Text, Decoration };
    /// What to do with text and paths that stand directly in an element that holds others.
    struct Container {
        const char* text_tag;        ///< tag that loose text is put into; nullptr: loose text is a fault
        const char* decoration_tag;  ///< tag for loose paths and pictures
        bool figure = false;
    };

    void paper(const frame::Frame& frame);
    /// An element that holds others.
    void open(const char* type, TagRecord record);
    /// An element, or artifact, that holds what is drawn next.
    void mark(const char* type, TagRecord record);
    void end();
    void want(Loose kind, const Container& container);
    void children(const std::vector<frame::Item>& items, const Container& container);
    void child(const frame::Group& group, const Container& container);
    void structure(const frame::Group& group);
    void link_text(const frame::Group& group);
    void lone_link(const frame::Link& link, const Container& container);

    Canvas& canvas_;
    TagRecords& records_;
    std::vector<std::size_t> open_;  ///< records of the elements that are open
    Loose loose_ = Loose::None;
    double page_height_ = 0;
    std::size_t page_ = 0;
    std::set<std::string> begun_;  ///< keys of `continues` that an earlier page began
    bool repeated_ = false;        ///< inside an element that an earlier page began
};

}  // namespace wayfolio::output
