#include "produce/produce.hpp"

#include "produce/build_digest.hpp"
#include "produce/inputs.hpp"
#include "produce/logo_fault.hpp"
#include "produce/unset_text.hpp"
#include "page/lay_out.hpp"
#include "report/build.hpp"
#include "document/logo_picture.hpp"
#include "input/json/nearest.hpp"

#include <future>

namespace wayfolio::produce {

namespace {

/// No page could be drawn.
[[noreturn]] void reject_empty(const Drawing& drawing) {
    const std::vector<std::string_view> blocks(drawing.layout.blocks.begin(), drawing.layout.blocks.end());
    throw input::InputRejected({{drawing.document.file, {}, "nothing for a page of the layout \"" + drawing.layout.name + "\"",
                                 "data for one of its blocks: " + input::listed(blocks), "or a layout with more blocks, as \"report\""}});
}

report::Model model_of(const Drawing& drawing, const Inputs& inputs) {
    report::Model model = report::build({customer_document(drawing, inputs), drawing.evaluation, drawing.layout});
    if (model.blocks.empty()) reject_empty(drawing);
    model.running.foot_left += "   fingerprint " + short_form(inputs.fingerprint);
    return model;
}

/// All that a report carries.
output::EmbeddedFiles report_files(const Drawing& drawing, const Inputs& inputs) {
    std::vector<output::Attachment> all = attachments_of(drawing, inputs);
    if (auto draft = certificate_attachment(drawing)) all.push_back(*std::move(draft));
    return output::embedded(all, created(drawing.document));
}

std::vector<frame::Frame> laid_out(const Drawing& drawing, const report::Model& model) {
    return or_unset_texts(drawing.document, drawing.layout, drawing.shaper,
                          [&] { return page::lay_out(model, {drawing.layout, drawing.shaper}); });
}

struct Placed {
    std::vector<frame::Frame> pages;
    output::Metadata metadata;
};

/// What was put into words is let go of once it is placed: of a long table it is tens of megabytes.
Placed placed_report(const Drawing& drawing, const Inputs& inputs) {
    const report::Model model = model_of(drawing, inputs);
    return {laid_out(drawing, model), metadata_of(drawing, inputs, model.title, model.subject)};
}

}  // namespace

LibraryVersions versions_in_use(const document::Document& document) {
    LibraryVersions all{{"wayfolio", std::string(version())}, {"wayfolio-build", std::string(build_digest())}};
    for (LibraryVersions& some : std::vector{text::library_versions(), output::library_versions()})
        for (LibraryVersion& one : some) all.push_back(std::move(one));
    const auto logo = document::logo_picture(document);
    if (logo && logo->format == document::Picture::Format::Svg) all.push_back(output::svg_library_version());
    return all;
}

std::vector<frame::Frame> report_pages(const Drawing& drawing) {
    const Inputs inputs = inputs_of(drawing, {});
    return laid_out(drawing, model_of(drawing, inputs));
}

std::string report_pdf(const Drawing& drawing) {
    const Inputs inputs = inputs_of(drawing, {});
    // Neither needs the other: the files that the PDF carries are made while its pages are.
    std::future<output::EmbeddedFiles> files =
        std::async(launched(drawing.shaper.threads()), [&] { return report_files(drawing, inputs); });
    Placed placed = placed_report(drawing, inputs);
    return or_logo_fault(drawing.document, [&] {
        return output::pdf_with(std::move(placed.pages), placed.metadata, drawing.shaper, [&] { return files.get(); });
    });
}

}  // namespace wayfolio::produce
