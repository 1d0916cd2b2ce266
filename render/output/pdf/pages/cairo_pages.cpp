#include "output/pdf/pages/cairo_pages.hpp"

#include "frame/walk.hpp"
#include "output/memory_stream.hpp"
#include "output/pdf/pages/tag_painter.hpp"

#include <cairo-pdf.h>

#include <algorithm>

namespace wayfolio::output {

namespace {

using units::point;

void keep_bookmarks(frame::Frame& page) {
    std::vector<frame::Item> kept;
    frame::walk(page.items, [&](const frame::Bookmark& bookmark) { kept.emplace_back(bookmark); });
    page.items = std::move(kept);
}

/// Types of the marked content of what was drawn last, in the order of drawing.
std::vector<std::string_view> marked_types(const TagRecords& records, std::size_t first) {
    std::vector<std::string_view> types;
    for (std::size_t i = first; i < records.size(); ++i)
        if (records[i].marked) types.push_back(records[i].type);
    return types;
}

/// Cairo's PDF of the pages, of which bookmarks are left; `records` and `contents` learn what was drawn.
std::string drawn_by_cairo(std::vector<frame::Frame>& pages, const text::Shaper& shaper, TagRecords& records, PageContents& contents) {
    std::string bytes;
    const Surface surface(cairo_pdf_surface_create_for_stream(append_to_string, &bytes, 1, 1));
    // Never left out: Cairo would ask the clock.
    for (const cairo_pdf_metadata_t date : {CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE})
        cairo_pdf_surface_set_metadata(surface.get(), date, "1970-01-01T00:00:00Z");
    const Context context(cairo_create(surface.get()));
    Canvas canvas(context.get(), shaper, TextAs::Glyphs, Scaling::Nearest);
    TagPainter painter(canvas, records);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        cairo_pdf_surface_set_size(surface.get(), pages[i].width.in(point), pages[i].height.in(point));
        const std::size_t before = bytes.size(), records_before = records.size();
        painter.page(pages[i], i);
        cairo_show_page(context.get());
        require(cairo_status(context.get()), "PDF");
        contents.add(std::string_view(bytes).substr(before), marked_types(records, records_before));
        keep_bookmarks(pages[i]);
    }
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()), "PDF");
    return bytes;
}

/// The words of a dictionary without its brackets.
std::string entries_of(Handle dictionary) {
    const std::string words = dictionary.unparseResolved();
    return words.substr(2, words.rfind(">>") - 2);
}

/// Names of the fonts that a page brings with it.
std::set<std::string> fonts_of(Handle page) {
    std::set<std::string> names;
    Handle fonts = page.getKey("/Resources").getKey("/Font");
    if (!fonts.isDictionary()) return names;
    for (const auto& [name, font] : fonts.ditems())
        if (Handle(font).isDictionary()) names.insert(name);
    return names;
}

/// Copies objects of Cairo's with all that they lead to; those that are there already stay as they are.
class Copying {
public:
    explicit Copying(Objects& into) : into_(into) {}

    void reach(Handle object) {
        if (object.isIndirect()) {
            if (into_.has(object.getObjectID())) return;
            copy(object);
        }
        if (object.isStream()) object = object.getDict();
        if (object.isDictionary())
            for (const auto& [key, value] : object.ditems()) reach(value);
        else if (object.isArray())
            for (const Handle& item : object.aitems()) reach(item);
    }

private:
    void copy(Handle object) {
        if (object.isStream()) {
            object.getDict().removeKey("/Length");
            into_.put_stream(object.getObjectID(), entries_of(object.getDict()), {text_of(object.getRawStreamData()), /*pack=*/false});
            return;
        }
        // Cairo leaves out the glyph map of TrueType fonts, which ISO 19005-3 6.2.11.3.2 demands.
        if (object.isDictionary() && object.getKey("/Subtype").isNameAndEquals("/CIDFontType2"))
            object.replaceKey("/CIDToGIDMap", Handle::newName("/Identity"));
        into_.put(object.getObjectID(), object.unparseResolved());
    }

    Objects& into_;
};

}  // namespace

void require_fonts(const std::set<std::string>& set, const std::set<std::string>& there) {
    if (!std::ranges::includes(there, set))
        throw files::OutputFailed("PDF", "a font of a page could not be written; there may be too little memory", /*cannot_create=*/false);
}

CairoPages::CairoPages(std::vector<frame::Frame> pages, const text::Shaper& shaper)
    : threads_(shaper.threads()),
      frames_(std::move(pages)),
      contents_(threads_),
      bytes_(drawn_by_cairo(frames_, shaper, records_, contents_)) {
    file_.emplace();
    file_->setSuppressWarnings(/*val=*/true);
    file_->processMemoryFile("drawn pages", bytes_.data(), bytes_.size());
    pages_ = file_->getAllPages();
    for (Handle& page : pages_) numbers_.push_back(page.getObjectID());
    tree_number_ = file_->getRoot().getKey("/Pages").getObjectID();
    next_number_ = file_->getXRefTable().rbegin()->first.getObj() + 1;
    producer_ = file_->getTrailer().getKey("/Info").getKey("/Producer").getUTF8Value();
}

std::vector<PageContent> CairoPages::contents() {
    std::vector<std::string> written;
    for (Handle& page : pages_) written.push_back(text_of(page.getKey("/Contents").getRawStreamData()));
    std::vector<PageContent> contents = contents_.take(written);
    for (std::size_t i = 0; i < pages_.size(); ++i) require_fonts(contents[i].fonts, fonts_of(pages_[i]));
    return contents;
}

void CairoPages::move_to(Objects& objects, const std::vector<std::string>& entries) {
    std::vector<PageContent> ready = contents();
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        Handle& page = pages_[i];
        objects.put_stream(page.getKey("/Contents").getObjectID(), "/Filter /FlateDecode ", {std::move(ready[i].packed), /*pack=*/false});
        page.removeKey("/StructParents");
        objects.put(numbers_[i], "<<" + entries_of(page) + entries.at(i) + ">>");
    }
    Copying copying(objects);
    for (const Handle& page : pages_)
        for (const auto& [key, value] : Handle(page).ditems()) copying.reach(value);
    pages_.clear();
    file_.reset();
    std::string().swap(bytes_);
}

}  // namespace wayfolio::output
