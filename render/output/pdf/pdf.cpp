#include "output/pdf/attach.hpp"
#include "output/pdf/pages/cairo_pages.hpp"
#include "output/pdf/information.hpp"
#include "output/pdf/navigation.hpp"
#include "output/pdf/srgb_profile.hpp"
#include "output/pdf/structure_tree.hpp"
#include "output/sane_frame.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <future>

namespace wayfolio::output {

namespace {

std::string output_intent(Objects& objects) {
    const int profile = objects.add_stream("/N 3 ", {srgb_profile(), /*pack=*/true});
    return fmt::format(
        " /OutputIntents [<</Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB IEC61966-2.1) /Info (sRGB IEC61966-2.1) "
        "/DestOutputProfile {}>>]",
        reference(profile));
}

bool is_number(const std::string& label) {
    return !label.empty() && label.size() < 8 && label[0] != '0' && std::ranges::all_of(label, [](char c) { return c >= '0' && c <= '9'; });
}

std::string page_labels(const std::vector<frame::Frame>& pages) {
    std::string labels;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        const std::string& name = pages[page].label;
        labels += fmt::format(" {} <<{}>>", page, is_number(name) ? "/S /D /St " + name : "/P " + text_string(name));
    }
    return fmt::format(" /PageLabels <</Nums [{}]>>", labels);
}

/// What each page's dictionary says beside what Cairo drew: tab order by structure, its key in the parent tree, its links.
std::vector<std::string> page_entries(const StructureTree& tree) {
    std::vector<std::string> entries;
    for (std::size_t page = 0; page < tree.annotations.size(); ++page) {
        std::string links;
        for (const int number : tree.annotations[page]) links += " " + reference(number);
        entries.push_back(fmt::format(" /Tabs /S /StructParents {}{}", page, links.empty() ? "" : fmt::format(" /Annots [{}]", links)));
    }
    return entries;
}

/// The whole file: Cairo's pages, and around them what PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) ask for. See README.md for what
/// and why.
class PdfFile {
public:
    PdfFile(CairoPages& drawn, const Metadata& metadata) : drawn_(drawn), metadata_(metadata), objects_(drawn.next_number()) {
        catalog_ = fmt::format("/Type /Catalog /Pages {} /Lang {} /MarkInfo <</Marked true>> /ViewerPreferences <</DisplayDocTitle true>>",
                               reference(drawn.tree_number()), text_string(metadata.language));
    }

    void add_structure(const std::map<std::string, Destination>& destinations) {
        const StructureTree tree = structure_tree(drawn_.records(), destinations, drawn_.numbers(), objects_);
        catalog_ += " /StructTreeRoot " + reference(tree.root);
        if (const auto bookmarks = outline(drawn_.frames(), drawn_.numbers(), objects_))
            catalog_ += fmt::format(" /Outlines {} /PageMode /UseOutlines", reference(*bookmarks));
        drawn_.move_to(objects_, page_entries(tree));
    }

    void add_files(const EmbeddedFiles& files) { catalog_ += attach(objects_, files); }

    std::string written() {
        // ISO 19005-3 allows packed metadata; left in the open, an archive finds it without a PDF reader.
        const int packet = objects_.add_stream("/Type /Metadata /Subtype /XML ", {xmp(metadata_, drawn_.producer()), /*pack=*/false});
        catalog_ += page_labels(drawn_.frames()) + output_intent(objects_) + " /Metadata " + reference(packet);
        const int info = objects_.add(information(metadata_, drawn_.producer())), root = objects_.add("<<" + catalog_ + ">>");
        return write_pdf(std::move(objects_), {root, info}, drawn_.threads());
    }

private:
    CairoPages& drawn_;
    const Metadata& metadata_;
    Objects objects_;
    std::string catalog_;  ///< its entries so far
};

void require_sane_pages(const std::vector<frame::Frame>& pages) {
    if (pages.empty()) throw files::OutputFailed("PDF", "there are no pages", /*cannot_create=*/false);
    for (const frame::Frame& page : pages) require_sane(page);
}

}  // namespace

std::string pdf(std::vector<frame::Frame> pages, const Metadata& metadata, const text::Shaper& shaper,
                const std::vector<Attachment>& attachments) {
    std::future<EmbeddedFiles> packing = std::async(launched(shaper.threads()), [&] { return embedded(attachments, metadata.created); });
    return pdf_with(std::move(pages), metadata, shaper, [&] { return packing.get(); });
}

std::string pdf_with(std::vector<frame::Frame> pages, const Metadata& metadata, const text::Shaper& shaper,
                     const std::function<EmbeddedFiles()>& files) {
    require_sane_pages(pages);
    const std::map<std::string, Destination> destinations = destinations_of(pages);
    CairoPages drawn(std::move(pages), shaper);
    PdfFile file(drawn, metadata);
    file.add_structure(destinations);
    file.add_files(files());
    return file.written();
}

}  // namespace wayfolio::output
