#include "produce/comparison.hpp"

#include "input/digest.hpp"
#include "produce/input_list.hpp"
#include "produce/unset_text.hpp"
#include "page/lay_out.hpp"
#include "report/build.hpp"

#include <array>

namespace wayfolio::produce {
namespace {

using evaluate::Json;
using output::Attachment;
using output::Relationship;

/// One side with the names of its files inside the PDF.
struct KeptSide {
    const document::Document& document;
    std::string prefix, document_name, words;
};

std::vector<KeptSide> kept_sides(const ComparisonDrawing& drawing) {
    return {{drawing.was, "wayfolio-old-", "wayfolio-old-result.json", "old"},
            {drawing.now, "wayfolio-new-", "wayfolio-new-result.json", "new"}};
}

ComparisonDrawing with_documents(const ComparisonDrawing& given, const document::Document& was, const document::Document& now) {
    return {was, now, given.evaluation_was, given.evaluation_now, given.layout, given.shaper, given.versions, given.beside};
}

std::array<compare::Side, 2> sides_of(const ComparisonDrawing& drawing) {
    const auto kept = kept_sides(drawing);
    return {compare::Side{kept[0].document_name, drawing.was, drawing.evaluation_was},
            compare::Side{kept[1].document_name, drawing.now, drawing.evaluation_now}};
}

/// What differs, and why.
struct Differences {
    compare::Comparison changes;
    std::optional<std::vector<compare::Cause>> causes;
};

Differences differences_of(const ComparisonDrawing& drawing) {
    const auto sides = sides_of(drawing);
    compare::Comparison changes = compare::compare(sides[0], sides[1], drawing.beside);
    auto causes = compare::causes(sides[0], sides[1], changes);
    return {std::move(changes), std::move(causes)};
}

InputList inputs_of_comparison(const ComparisonDrawing& drawing) {
    Json list{{"format", "wayfolio-inputs"}, {"version", 1}, {"drawn", {{"what", "comparison"}, {"paper", drawing.layout.paper}}}};
    if (drawing.beside == compare::Beside::LeftAndFound) list["drawn"]["left_and_found"] = true;
    list["documents"] = Json::array();
    list["side_files"] = Json::array();
    for (const KeptSide& side : kept_sides(drawing)) {
        list["documents"].push_back(file_json(side.document_name, side.document.sha256));
        for (const auto& file : side.document.side_files)
            list["side_files"].push_back(file_json(side.prefix + file.name, input::sha256_hex(file.bytes)));
        for (const auto& file : side.document.large_side_files)
            list["side_files"].push_back(apart_json(side.prefix + file.name, file.sha256));
    }
    return input_list(std::move(list), drawing.layout, drawing.shaper, drawing.versions);
}

report::Model model_of_comparison(const ComparisonDrawing& drawing, const Differences& found, const std::string& fingerprint) {
    report::Model model = report::build_comparison({drawing.was, drawing.evaluation_was, drawing.layout},
                                                   {drawing.now, drawing.evaluation_now, drawing.layout}, found.changes, found.causes);
    model.running.foot_left += "   fingerprint " + short_form(fingerprint);
    return model;
}

std::vector<Attachment> comparison_attachments(const ComparisonDrawing& drawing, const Differences& found, const InputList& inputs) {
    const std::string json = media_type(".json");
    std::vector<Attachment> all;
    for (const KeptSide& side : kept_sides(drawing)) {
        all.push_back({side.document_name, json, side.document.bytes, Relationship::Source, "Result document, " + side.words});
        for (const auto& file : side.document.side_files)
            all.push_back({side.prefix + file.name, media_type(file.name), file.bytes, Relationship::Source,
                           "Side file of the result document, " + side.words});
    }
    append_layouts_and_list(all, drawing.layout, inputs);
    all.push_back({"wayfolio-comparison.json", json, compare::comparison_json(found.changes, found.causes), Relationship::Data,
                   "Every compared number"});
    return all;
}

/// A character that no font has may stand in either document.
std::vector<frame::Frame> laid_out(const ComparisonDrawing& drawing, const report::Model& model) {
    const auto lay_out = [&] { return page::lay_out(model, {drawing.layout, drawing.shaper}); };
    return or_unset_texts(drawing.was, drawing.layout, drawing.shaper,
                          [&] { return or_unset_texts(drawing.now, drawing.layout, drawing.shaper, lay_out); });
}

}  // namespace

std::vector<frame::Frame> comparison_pages(const ComparisonDrawing& given) {
    const CustomerVersion was = customer_version(given.was), now = customer_version(given.now);
    const ComparisonDrawing drawing = with_documents(given, was.of(given.was), now.of(given.now));
    return laid_out(drawing, model_of_comparison(drawing, differences_of(drawing), inputs_of_comparison(drawing).fingerprint));
}

std::string comparison_pdf(const ComparisonDrawing& given) {
    const CustomerVersion was = customer_version(given.was), now = customer_version(given.now);
    const ComparisonDrawing drawing = with_documents(given, was.of(given.was), now.of(given.now));
    const InputList inputs = inputs_of_comparison(drawing);
    const Differences found = differences_of(drawing);
    const report::Model model = model_of_comparison(drawing, found, inputs.fingerprint);
    output::Metadata metadata{.title = model.title, .author = model.author, .subject = model.subject, .created = model.created};
    sign(metadata, inputs);
    return output::pdf(laid_out(drawing, model), metadata, drawing.shaper, comparison_attachments(drawing, found, inputs));
}

}  // namespace wayfolio::produce
