#include "certificate/certificate.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "input/problem.hpp"
#include "produce/input_list.hpp"

namespace wayfolio::produce {
namespace {

using output::Attachment;
using output::Relationship;

constexpr std::string_view json_type = "application/json";

void refuse_own_name(const std::string& name, const std::string& file) {
    if (!name.starts_with("wayfolio-")) return;
    throw input::InputRejected({{file, {}, "a side file called \"" + name + "\"", "a name that does not begin with \"wayfolio-\"",
                                 "this program uses these names for its own files"}});
}

}  // namespace

Attachment list_attachment(const InputList& inputs) {
    return {std::string(kept::inputs), std::string(json_type), inputs.list, Relationship::Supplement,
            "What this file was made from; the SHA-256 of this list is the fingerprint"};
}

void append_layouts_and_list(std::vector<Attachment>& all, const layouts::Layout& layout, const InputList& inputs) {
    const std::string json(json_type);
    all.push_back({kept::layout(1), json, layout.bytes, Relationship::Supplement, "Layout"});
    for (std::size_t place = 0; place < layout.extended.size(); ++place)
        all.push_back({kept::layout(place + 2), json, layout.extended[place], Relationship::Supplement, "Layout that the layout extends"});
    all.push_back(list_attachment(inputs));
}

std::string kept_evaluation(const Drawing& drawing, const Inputs& inputs) {
    return evaluate::evaluation_json(customer_document(drawing, inputs), drawing.evaluation);
}

std::optional<Attachment> certificate_attachment(const Drawing& drawing) {
    if (!drawing.layout.certificate_draft) return std::nullopt;
    // Nothing that the document marks internal is read into it, so the draft is the same for the customer.
    return Attachment{std::string(kept::certificate), "text/xml", certificate::certificate_draft(drawing.document, drawing.evaluation).xml,
                      Relationship::Supplement, "Draft of a machine-readable certificate, without signature"};
}

std::vector<Attachment> attachments_of(const Drawing& drawing, const Inputs& inputs) {
    const std::string json(json_type);
    std::vector<Attachment> all{
        {std::string(kept::document), json, customer_document(drawing, inputs).bytes, Relationship::Source,
         inputs.customer->is_reduced ? "Result document, without what it marks internal" : "Result document, as given"}};
    for (const auto& file : drawing.document.side_files) {
        refuse_own_name(file.name, drawing.document.file);
        all.push_back({file.name, media_type(file.name), file.bytes, Relationship::Source, "Side file of the result document, as given"});
    }
    for (const auto& file : drawing.document.large_side_files) refuse_own_name(file.name, drawing.document.file);
    append_layouts_and_list(all, drawing.layout, inputs);
    all.push_back({std::string(kept::evaluation), json, kept_evaluation(drawing, inputs), Relationship::Data, "Every evaluated number"});
    return all;
}

}  // namespace wayfolio::produce
