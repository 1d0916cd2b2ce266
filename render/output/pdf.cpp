#include "output/dates.hpp"
#include "output/finish_pdf.hpp"
#include "output/memory_stream.hpp"
#include "output/packed.hpp"
#include "output/page_contents.hpp"
#include "output/sane_frame.hpp"
#include "output/tag_painter.hpp"

#include <cairo-pdf.h>

#include <future>

namespace wayfolio::output {

namespace {

using units::point;

void set_metadata(cairo_surface_t* surface, const Metadata& metadata) {
    const std::string time = whole_time(metadata.created);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, metadata.title.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, metadata.author.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, metadata.subject.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_KEYWORDS, metadata.keywords.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, metadata.creator.c_str());
    // Never left out: Cairo would ask the clock.
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, time.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, time.c_str());
}

std::vector<std::string> packed_bytes(const std::vector<Attachment>& attachments) {
    std::vector<std::string> all;
    for (const Attachment& attachment : attachments) all.push_back(packed(attachment.bytes));
    return all;
}

/// Types of the marked content among the records from `first` on.
std::vector<std::string> marked_types(const std::vector<TagRecord>& records, std::size_t first) {
    std::vector<std::string> types;
    for (std::size_t i = first; i < records.size(); ++i)
        if (records[i].marked) types.push_back(records[i].type);
    return types;
}

/// Cairo's PDF, with what Cairo cannot say and what was made ready beside it.
struct Drawn {
    std::string bytes;
    std::vector<TagRecord> records;
    std::vector<std::string> contents;
};

Drawn draw(const std::vector<frame::Frame>& pages, const Metadata& metadata, const text::Shaper& shaper) {
    Drawn drawn;
    auto& [bytes, records, made] = drawn;
    PageContents contents;
    const frame::Frame& first = pages.front();
    const Surface surface(
        cairo_pdf_surface_create_for_stream(append_to_string, &bytes, first.width.in(point), first.height.in(point)));
    set_metadata(surface.get(), metadata);
    const Context context(cairo_create(surface.get()));
    Canvas canvas(context.get(), shaper, TextAs::Glyphs, Scaling::Nearest);
    TagPainter painter(canvas, records);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const frame::Frame& page = pages[i];
        cairo_pdf_surface_set_size(surface.get(), page.width.in(point), page.height.in(point));
        const std::size_t written = bytes.size(), recorded = records.size();
        if (i == 0) painter.open_document();
        painter.page(page, i);
        if (i + 1 == pages.size()) painter.close_document();
        cairo_show_page(context.get());
        require(cairo_status(context.get()), "PDF");
        contents.add(std::string_view(bytes).substr(written), marked_types(records, recorded));
    }
    require(cairo_status(context.get()), "PDF");
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()), "PDF");
    made = contents.take();
    return drawn;
}

}  // namespace

std::string pdf(const std::vector<frame::Frame>& pages, const Metadata& metadata, const text::Shaper& shaper,
                const std::vector<Attachment>& attachments) {
    if (pages.empty()) throw OutputFailed("PDF", "there are no pages", /*cannot_create=*/false);
    for (const frame::Frame& page : pages) require_sane(page);
    std::future<std::vector<std::string>> packing = std::async(std::launch::async, [&] { return packed_bytes(attachments); });
    Drawn drawn = draw(pages, metadata, shaper);
    const PdfParts parts{.metadata = metadata, .pages = pages, .records = drawn.records, .contents = std::move(drawn.contents), .attachments = attachments,
                         .packed_attachments = packing.get()};
    return finish_pdf(drawn.bytes, parts);
}

}  // namespace wayfolio::output
