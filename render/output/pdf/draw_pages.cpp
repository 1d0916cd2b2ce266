#include "output/pdf/draw_pages.hpp"

#include "output/memory_stream.hpp"
#include "output/pdf/page_contents.hpp"
#include "output/pdf/tag_painter.hpp"

#include <cairo-pdf.h>

namespace wayfolio::output {

namespace {

using units::point;

/// Types of the marked content among the records from `first` on.
std::vector<std::string> marked_types(const std::vector<TagRecord>& records, std::size_t first) {
    std::vector<std::string> types;
    for (std::size_t i = first; i < records.size(); ++i)
        if (records[i].marked) types.push_back(records[i].type);
    return types;
}

/// Cairo's surface and context, and what draws on them.
class PdfSurface {
public:
    PdfSurface(std::string& bytes, const text::Shaper& shaper)
        : surface_(cairo_pdf_surface_create_for_stream(append_to_string, &bytes, 1, 1)), context_(cairo_create(surface_.get())),
          canvas_(context_.get(), shaper, TextAs::Glyphs, Scaling::Nearest) {
        // Never left out: Cairo would ask the clock. The finishing pass writes the document's own.
        for (const cairo_pdf_metadata_t date : {CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE}) cairo_pdf_surface_set_metadata(surface_.get(), date, "1970-01-01T00:00:00Z");
    }

    Canvas& canvas() { return canvas_; }
    void begin_page(const frame::Frame& page) { cairo_pdf_surface_set_size(surface_.get(), page.width.in(point), page.height.in(point)); }
    void show_page() {
        cairo_show_page(context_.get());
        require(cairo_status(context_.get()), "PDF");
    }
    void finish() {
        cairo_surface_finish(surface_.get());
        require(cairo_surface_status(surface_.get()), "PDF");
    }

private:
    Surface surface_;
    Context context_;
    Canvas canvas_;
};

/// How long Cairo takes over items, as measured on the samples: a run of text costs as much as three steps of a path, its glyphs next
/// to nothing.
std::size_t weight_of(const std::vector<frame::Item>& items) {
    constexpr std::size_t run_weight = 3;
    std::size_t weight = 0;
    for (const frame::Item& item : items) {
        if (const auto* group = std::get_if<frame::Group>(&item)) weight += weight_of(group->items);
        if (std::holds_alternative<frame::GlyphRun>(item)) weight += run_weight;
        if (const auto* path = std::get_if<frame::Path>(&item)) weight += path->steps.size() + 1;
    }
    return weight;
}

}  // namespace

DrawnPages draw_pages(const Drawing& drawing, PageRange range) {
    DrawnPages drawn;
    PageContents contents;
    PdfSurface surface(drawn.bytes, drawing.shaper);
    surface.begin_page(drawing.pages[range.first]);
    for (const frame::GlyphRun& run : drawing.sample) surface.canvas().show(run);
    surface.show_page();
    TagPainter painter(surface.canvas(), drawn.records, std::span(drawing.pages).first(range.first));
    for (std::size_t i = range.first; i < range.end; ++i) {
        const std::size_t written = drawn.bytes.size(), recorded = drawn.records.size();
        surface.begin_page(drawing.pages[i]);
        painter.page(drawing.pages[i], i);
        surface.show_page();
        contents.add(std::string_view(drawn.bytes).substr(written), marked_types(drawn.records, recorded));
    }
    surface.finish();
    drawn.contents = contents.take();
    return drawn;
}

std::vector<PageRange> shared_out(const std::vector<frame::Frame>& pages) {
    constexpr std::size_t fewest = 4;  // below, a second set of fonts costs more than is won
    if (pages.size() < fewest) return {{0, pages.size()}};
    constexpr std::size_t empty_page = 200;
    std::vector<std::size_t> until;
    for (const frame::Frame& page : pages) until.push_back((until.empty() ? 0 : until.back()) + empty_page + weight_of(page.items));
    // The cut that leaves the halves most alike: it goes on while the next page brings the first one nearer to half.
    std::size_t middle = 1;
    while (middle + 1 < pages.size() && until[middle - 1] + until[middle] <= until.back()) ++middle;
    return {{0, middle}, {middle, pages.size()}};
}

}  // namespace wayfolio::output
