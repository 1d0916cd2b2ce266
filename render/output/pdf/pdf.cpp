#include "output/pdf/dates.hpp"
#include "output/pdf/finish_pdf.hpp"
#include "output/pdf/glyph_sample.hpp"
#include "output/pdf/packed.hpp"
#include "output/sane_frame.hpp"

#include <future>

namespace wayfolio::output {

namespace {

std::vector<std::string> packed_bytes(const std::vector<Attachment>& attachments) {
    std::vector<std::string> all;
    for (const Attachment& attachment : attachments) all.push_back(packed(attachment.bytes));
    return all;
}

/// The pages, drawn by two surfaces at a time where there are enough. Which ones each draws, and so the bytes, does not depend on the machine.
PagesFiles drawn_files(const std::vector<frame::Frame>& pages, const text::Shaper& shaper) {
    const std::vector<frame::GlyphRun> sample = glyph_sample(pages);
    const Drawing drawing{pages, sample, shaper};
    const std::vector<PageRange> ranges = shared_out(pages);
    const auto draw = [&](PageRange range) { return std::make_unique<PagesFile>(draw_pages(drawing, range)); };
    std::vector<std::future<std::unique_ptr<PagesFile>>> others;
    for (std::size_t i = 1; i < ranges.size(); ++i) others.push_back(std::async(std::launch::async, draw, ranges[i]));
    PagesFiles files;
    files.push_back(draw(ranges.front()));
    for (auto& other : others) files.push_back(other.get());
    return files;
}

}  // namespace

std::string pdf(const std::vector<frame::Frame>& pages, const Metadata& metadata, const text::Shaper& shaper,
                const std::vector<Attachment>& attachments) {
    if (pages.empty()) throw OutputFailed("PDF", "there are no pages", /*cannot_create=*/false);
    for (const frame::Frame& page : pages) require_sane(page);
    std::future<std::vector<std::string>> packing = std::async(std::launch::async, [&] { return packed_bytes(attachments); });
    const PagesFiles files = drawn_files(pages, shaper);
    return finish_pdf(files, {.metadata = metadata, .pages = pages, .attachments = attachments, .packed_attachments = packing.get()});
}

}  // namespace wayfolio::output
