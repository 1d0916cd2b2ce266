#include "produce/inputs.hpp"

#include "input/customer_copy.hpp"
#include "input/digest.hpp"
#include "produce/input_list.hpp"

namespace wayfolio::produce {
namespace {

using evaluate::Json;

Json drawn_json(const std::string& paper, const Product& product) {
    if (product.is_report()) return {{"what", "report"}, {"paper", paper}};
    return {{"what", "figure"}, {"series", product.series}, {"figure", product.figure}, {"paper", paper}};
}

}  // namespace

std::string kept::layout(std::size_t number) { return "wayfolio-layout-" + std::to_string(number) + ".json"; }

CustomerVersion customer_version(const document::Document& document) {
    input::CustomerCopy copy = input::customer_copy(document.bytes);
    CustomerVersion version{.reduced = std::nullopt, .is_reduced = copy.reduced};
    if (copy.left_out == 0) return version;
    version.reduced = document;
    version.reduced->sha256 = input::sha256_hex(copy.bytes);
    version.reduced->bytes = std::move(copy.bytes);
    return version;
}

InputsOfMany::InputsOfMany(const Drawing& drawing)
    : customer_(std::make_shared<const CustomerVersion>(customer_version(drawing.document))), paper_(drawing.layout.paper) {
    Json list{{"format", "wayfolio-inputs"}, {"version", 1}, {"drawn", nullptr}};
    list["document"] = file_json(kept::document, customer_->of(drawing.document).sha256);
    list["document"]["reduced"] = customer_->is_reduced;
    list["side_files"] = Json::array();
    for (const auto& file : drawing.document.side_files) list["side_files"].push_back(file_json(file.name, input::sha256_hex(file.bytes)));
    for (const auto& file : drawing.document.large_side_files) list["side_files"].push_back(apart_json(file.name, file.sha256));
    list_ = ended(std::move(list), drawing.layout, drawing.shaper, drawing.versions);
}

Inputs InputsOfMany::of(const Product& product) const {
    Json list = list_;
    list["drawn"] = drawn_json(paper_, product);
    return {input_list(list), customer_};
}

Inputs inputs_of(const Drawing& drawing, const Product& product) { return InputsOfMany(drawing).of(product); }

const document::Document& customer_document(const Drawing& drawing, const Inputs& inputs) { return inputs.customer->of(drawing.document); }

std::string short_form(const std::string& fingerprint) { return fingerprint.substr(0, 16); }

std::string created(const document::Document& document) {
    return document.job.issued.empty() ? document.job.measured_to : document.job.issued;
}

output::Metadata metadata_of(const Drawing& drawing, const Inputs& inputs, const std::string& title, const std::string& subject) {
    const auto& job = drawing.document.job;
    output::Metadata metadata{.title = title, .author = job.laboratory ? job.laboratory->name : "", .subject = subject,
                              .created = created(drawing.document)};
    sign(metadata, inputs);
    return metadata;
}

}  // namespace wayfolio::produce
