#include "job/inputs.hpp"

#include "evaluate/environment_json.hpp"
#include "evaluate/json_parts.hpp"
#include "input/sha256.hpp"
#include "results/customer_copy.hpp"

namespace wayfolio::job {
namespace {

using evaluate::Json;

Json file_json(std::string_view name, const std::string& sha256) { return {{"file", name}, {"sha256", sha256}}; }

Json drawn_json(const Drawing& drawing, const Product& product) {
    if (product.is_report()) return {{"what", "report"}, {"paper", drawing.layout.paper}};
    return {{"what", "figure"}, {"series", product.series}, {"figure", product.figure}, {"paper", drawing.layout.paper}};
}

Json layouts_json(const layouts::Layout& layout) {
    auto json = Json::array({file_json(kept::layout(1), input::sha256_hex(layout.bytes))});
    for (std::size_t place = 0; place < layout.extended.size(); ++place)
        json.push_back(file_json(kept::layout(place + 2), input::sha256_hex(layout.extended[place])));
    return json;
}

Json versions_json(const LibraryVersions& versions) {
    auto json = Json::object();
    for (const LibraryVersion& one : versions) json[one.name] = one.version;
    return json;
}

/// "wayfolio-result.json sha256:…; cairo 1.16.0": the list in one line, for readers of metadata.
std::string source_line(const Json& list) {
    std::string line;
    const auto add = [&](const std::string& part) { line += (line.empty() ? "" : "; ") + part; };
    const auto add_file = [&](const Json& file) { add(file["file"].get<std::string>() + " sha256:" + file["sha256"].get<std::string>()); };
    add_file(list["document"]);
    for (const char* files : {"side_files", "layouts", "fonts"})
        for (const Json& file : list[files]) add_file(file);
    for (const auto& [name, version] : list["versions"].items()) add(name + " " + version.get<std::string>());
    return line;
}

}  // namespace

std::string kept::layout(std::size_t number) { return "wayfolio-layout-" + std::to_string(number) + ".json"; }

Inputs inputs_of(const Drawing& drawing, const Product& product) {
    Inputs inputs;
    results::CustomerCopy copy = results::customer_copy(drawing.document.bytes);
    inputs.is_reduced = copy.reduced;
    if (copy.left_out > 0) {
        inputs.reduced = drawing.document;
        inputs.reduced->sha256 = input::sha256_hex(copy.bytes);
        inputs.reduced->bytes = std::move(copy.bytes);
    }
    Json list{{"format", "wayfolio-inputs"}, {"version", 1}, {"drawn", drawn_json(drawing, product)}};
    list["document"] = file_json(kept::document, customer_document(drawing, inputs).sha256);
    list["document"]["reduced"] = inputs.is_reduced;
    list["side_files"] = Json::array();
    for (const auto& file : drawing.document.side_files) list["side_files"].push_back(file_json(file.name, input::sha256_hex(file.bytes)));
    list["layouts"] = layouts_json(drawing.layout);
    list["fonts"] = Json::array();
    for (const auto& font : drawing.shaper.fonts()) list["fonts"].push_back(file_json(font.file, font.sha256));
    list["versions"] = versions_json(drawing.versions);
    inputs.list = evaluate::to_text(list);
    inputs.fingerprint = input::sha256_hex(inputs.list);
    return inputs;
}

const results::Document& customer_document(const Drawing& drawing, const Inputs& inputs) { return inputs.reduced ? *inputs.reduced : drawing.document; }

std::string short_form(const std::string& fingerprint) { return fingerprint.substr(0, 16); }

output::Metadata metadata_of(const Drawing& drawing, const Inputs& inputs, const std::string& title, const std::string& subject) {
    const auto& job = drawing.document.job;
    return {.title = title, .author = job.laboratory ? job.laboratory->name : "", .subject = subject,
            .keywords = "fingerprint sha256:" + inputs.fingerprint, .created = job.issued.empty() ? job.measured_to : job.issued,
            .creator = "wayfolio " + std::string(version()), .identifier = "sha256:" + inputs.fingerprint,
            .source = source_line(Json::parse(inputs.list))};
}

std::string shown_data(const Drawing& drawing, const Inputs& inputs, const std::string& series) {
    Json json{{"fingerprint", "sha256:" + inputs.fingerprint}, {"inputs", Json::parse(inputs.list)}};
    if (series.empty()) json["environment"] = evaluate::environment_json(drawing.evaluation.environment);
    if (const auto* found = evaluate::find_series(drawing.evaluation, series)) json["series"] = evaluate::series_json(*found, drawing.evaluation);
    return evaluate::to_text(json);
}

}  // namespace wayfolio::job
