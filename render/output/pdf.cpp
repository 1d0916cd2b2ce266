#include "output/dates.hpp"
#include "output/finish_pdf.hpp"
#include "output/link_target.hpp"
#include "output/memory_stream.hpp"
#include "output/outline.hpp"
#include "output/sane_frame.hpp"
#include "output/tag_painter.hpp"

#include <cairo-pdf.h>

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

/// Draws the pages, fills `records` with what Cairo cannot say, and returns Cairo's PDF.
std::string draw(const std::vector<frame::Frame>& pages, const Metadata& metadata, const text::Shaper& shaper,
                 std::vector<TagRecord>& records) {
    std::string bytes;
    const frame::Frame& first = pages.front();
    const Surface surface(
        cairo_pdf_surface_create_for_stream(append_to_string, &bytes, first.width.in(point), first.height.in(point)));
    set_metadata(surface.get(), metadata);
    const Context context(cairo_create(surface.get()));
    Canvas canvas(context.get(), shaper, TextAs::Glyphs, Scaling::Nearest);
    TagPainter painter(canvas, records);
    Outline outline(surface.get());
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const frame::Frame& page = pages[i];
        cairo_pdf_surface_set_size(surface.get(), page.width.in(point), page.height.in(point));
        if (i == 0) painter.open_document();
        painter.page(page, i);
        outline.add(page.items, static_cast<int>(i) + 1);
        if (i + 1 == pages.size()) painter.close_document();
        cairo_show_page(context.get());
    }
    require(cairo_status(context.get()), "PDF");
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()), "PDF");
    return bytes;
}

}  // namespace

std::string pdf(const std::vector<frame::Frame>& pages, const Metadata& metadata, const text::Shaper& shaper,
                const std::vector<Attachment>& attachments) {
    if (pages.empty()) throw OutputFailed("PDF", "there are no pages", /*cannot_create=*/false);
    for (const frame::Frame& page : pages) require_sane(page);
    require_anchors(pages);
    std::vector<TagRecord> records;
    const std::string drawn = draw(pages, metadata, shaper, records);
    PdfParts parts{.metadata = metadata, .tags = records, .page_labels = {}, .attachments = attachments};
    for (const frame::Frame& page : pages) parts.page_labels.push_back(page.label);
    return finish_pdf(drawn, parts);
}

}  // namespace wayfolio::output
