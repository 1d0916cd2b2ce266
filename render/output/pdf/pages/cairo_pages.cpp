#include "output/pdf/pages/cairo_pages.hpp"

#include "frame/walk.hpp"
#include "output/memory_stream.hpp"
#include "output/pdf/packed.hpp"
#include "output/pdf/pages/tag_painter.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace wayfolio::output {

namespace {

using units::point;

void keep_bookmarks(frame::Frame& page) {
    std::vector<frame::Item> kept;
    frame::walk(page.items, [&](const frame::Bookmark& bookmark) { kept.emplace_back(bookmark); });
    page.items = std::move(kept);
}

/// Cairo's PDF of the pages, of which bookmarks are left; `records` learns what was drawn.
std::string drawn_by_cairo(std::vector<frame::Frame>& pages, const text::Shaper& shaper, TagRecords& records) {
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
        painter.page(pages[i], i);
        cairo_show_page(context.get());
        require(cairo_status(context.get()), "PDF");
        keep_bookmarks(pages[i]);
    }
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()), "PDF");
    return bytes;
}

/// Types of the marked content of each page, in the order of drawing.
std::vector<std::vector<std::string_view>> marked_types(const TagRecords& records, std::size_t pages) {
    std::vector<std::vector<std::string_view>> types(pages);
    for (const TagRecord& record : records)
        if (record.marked) types[record.page].push_back(record.type);
    return types;
}

constexpr std::string_view before_number = " << /MCID ", after_number = " >> BDC\n";

[[noreturn]] void disagree(const std::string& what) {
    throw std::logic_error("a page does not hold the marked content that was drawn: " + what);
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

// Cairo spells marked content in one fixed way, each operator on a line of its own, and numbers it from 0 on each page.
std::string with_types_named(std::string_view content, const std::vector<std::string_view>& types) {
    std::string named;
    named.reserve(content.size());
    std::size_t at = 0, number = 0;
    for (std::size_t found; (found = content.find(before_number, at)) != std::string_view::npos; ++number) {
        if (number == types.size()) disagree("more than was drawn");
        const std::string_view type = types[number];
        const std::size_t line = content.rfind('\n', found) + 1;
        const std::string rest = fmt::format("{}{}{}", before_number, number, after_number), expected = "/" + marking_of(type) + rest;
        if (content.substr(line, expected.size()) != expected) disagree(fmt::format("tag {} is not {}", number, type));
        named.append(content, at, line - at);
        named += type == artifact_tag ? "/Artifact BMC\n" : fmt::format("/{}{}", type, rest);
        at = line + expected.size();
    }
    if (number != types.size()) disagree("less than was drawn");
    return named.append(content, at);
}

void require_fonts(std::string_view content, const std::set<std::string>& there) {
    constexpr std::string_view sets_font = " Tf";
    for (std::size_t found = content.find(sets_font); found != std::string_view::npos; found = content.find(sets_font, found + 1)) {
        const std::size_t name = content.rfind('/', found), end = std::min(content.find(' ', name), content.size());
        if (name == std::string_view::npos || !there.contains(std::string(content.substr(name, end - name))))
            throw OutputFailed("PDF", "a font of a page could not be written; there may be too little memory", /*cannot_create=*/false);
    }
}

CairoPages::CairoPages(std::vector<frame::Frame> pages, const text::Shaper& shaper)
    : threads_(shaper.threads()), frames_(std::move(pages)), bytes_(drawn_by_cairo(frames_, shaper, records_)) {
    file_.setSuppressWarnings(/*val=*/true);
    file_.processMemoryFile("drawn pages", bytes_.data(), bytes_.size());
    pages_ = file_.getAllPages();
    for (Handle& page : pages_) numbers_.push_back(page.getObjectID());
}

std::vector<std::string> CairoPages::contents() {
    const auto types = marked_types(records_, pages_.size());
    std::vector<std::string> contents;
    std::vector<std::set<std::string>> fonts;
    for (Handle& page : pages_) {
        contents.push_back(text_of(page.getKey("/Contents").getRawStreamData()));
        fonts.push_back(fonts_of(page));
    }
    share_out(contents.size(), threads_, [&](std::size_t page) {
        const std::string content = unpacked(contents[page]);
        require_fonts(content, fonts[page]);
        contents[page] = packed(with_short_places(with_types_named(content, types[page])), Effort::More);
    });
    return contents;
}

void CairoPages::move_to(Objects& objects, const std::vector<std::string>& entries) {
    std::vector<std::string> ready = contents();
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        Handle& page = pages_[i];
        objects.put_stream(page.getKey("/Contents").getObjectID(), "/Filter /FlateDecode ", {std::move(ready[i]), /*pack=*/false});
        page.removeKey("/StructParents");
        objects.put(numbers_[i], "<<" + entries_of(page) + entries.at(i) + ">>");
    }
    Copying copying(objects);
    for (const Handle& page : pages_)
        for (const auto& [key, value] : Handle(page).ditems()) copying.reach(value);
}

}  // namespace wayfolio::output
