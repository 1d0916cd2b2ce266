#include "archive/record/record.hpp"
#include "evaluate/written/json_text.hpp"
#include "produce/input_list.hpp"

#include <algorithm>
#include <array>
#include <map>

namespace wayfolio::archive {
namespace {

using evaluate::Json;

constexpr std::string_view program_id = "#wayfolio", making_id = "#making";

bool went_in(std::string_view path) { return path.starts_with("inputs/") || path.starts_with("fonts/"); }

/// What a file is, in words.
std::string words_for(std::string_view path) {
    if (path.ends_with(produce::kept::document)) return "Result document, as given";
    if (path.ends_with(produce::kept::inputs)) return "List of what the report was made from; its SHA-256 is the fingerprint";
    if (path.starts_with("inputs/wayfolio-layout")) return "Layout";
    if (path.starts_with("inputs/")) return "Side file of the result document, as given";
    if (path.starts_with("fonts/")) return "Font";
    if (path.starts_with("figures/")) return "Figure";
    if (path.starts_with("compensation/")) return "Compensation table";
    if (path.ends_with(".xml")) return "Draft of a machine-readable certificate, without signature";
    return path == "report.pdf" ? "Report" : "Every evaluated number";
}

Json reference(std::string_view id) { return {{"@id", id}}; }

/// RO-Crate 1.1, 4.2: ids are relative URIs, in which other characters stand as percent codes.
std::string id_of(std::string_view path) {
    constexpr std::string_view plain = "-._~/", digits = "0123456789ABCDEF";
    std::string id;
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || plain.find(c) != std::string_view::npos) id += c;
        else id.append("%").append(1, digits[byte >> 4]).append(1, digits[byte & 0xF]);
    }
    return id;
}

Json file_json(const std::string& path, std::size_t size) {
    Json json{{"@id", id_of(path)},
              {"@type", "File"},
              {"name", words_for(path)},
              {"encodingFormat", produce::media_type(path)},
              {"contentSize", std::to_string(size)}};
    if (!went_in(path)) json["prov:wasGeneratedBy"] = reference(making_id);
    if (!went_in(path)) json["prov:wasDerivedFrom"] = reference("inputs/" + std::string(produce::kept::document));
    return json;
}

/// Sizes of all files, by path.
using Sizes = std::map<std::string, std::size_t>;

Json root_json(const produce::Drawing& drawing, const Sizes& payload) {
    const auto& job = drawing.document.job;
    Json root{{"@id", "./"}, {"@type", "Dataset"}};
    root["name"] = job.title.empty() ? "Calibration job " + job.number : job.title;
    root["description"] = "Record of a calibration job: what was measured, how it was evaluated, and the report";
    if (!job.number.empty()) root["identifier"] = job.number;
    root["version"] = std::to_string(revision_of(drawing.document));
    // RO-Crate asks for a date; a document that states none gets none invented.
    if (!job.issued.empty()) root["datePublished"] = job.issued;
    root["license"] = "Not stated; the laboratory that made the record says who may use it";
    if (job.laboratory && !job.laboratory->name.empty()) root["publisher"] = {{"@id", "#laboratory"}};
    root["hasPart"] = Json::array();
    for (const auto& [path, size] : payload) root["hasPart"].push_back(reference(id_of(path)));
    root["mentions"] = reference(making_id);
    return root;
}

Json making_json(const Sizes& payload, const std::string& fingerprint) {
    Json making{{"@id", making_id},
                {"@type", Json::array({"CreateAction", "prov:Activity"})},
                {"name", "Evaluation and drawing"},
                {"identifier", "sha256:" + fingerprint}};
    making["instrument"] = reference(program_id);
    making["prov:wasAssociatedWith"] = reference(program_id);
    making["object"] = making["result"] = making["prov:used"] = Json::array();
    for (const auto& [path, size] : payload) {
        making[went_in(path) ? "object" : "result"].push_back(reference(id_of(path)));
        if (went_in(path)) making["prov:used"].push_back(reference(id_of(path)));
    }
    return making;
}

Json program_json(const LibraryVersions& versions) {
    Json program{{"@id", program_id}, {"@type", Json::array({"SoftwareApplication", "prov:SoftwareAgent"})}, {"name", "wayfolio"}};
    auto libraries = Json::array();
    for (const LibraryVersion& one : versions) {
        if (one.name == "wayfolio") program["softwareVersion"] = one.version;
        else libraries.push_back(one.name + " " + one.version);
    }
    program["softwareRequirements"] = std::move(libraries);
    return program;
}

}  // namespace

std::string crate_metadata(const produce::Drawing& drawing, const Files& files, const std::string& fingerprint) {
    Sizes payload;
    for (const auto& [path, bytes] : files) payload.emplace(path, bytes.size());
    for (const auto& [path, source] : large_payload_of(drawing)) payload.emplace(path, source.size);
    auto graph = Json::array();
    graph.push_back({{"@id", "ro-crate-metadata.json"},
                     {"@type", "CreativeWork"},
                     {"conformsTo", {{"@id", "https://w3id.org/ro/crate/1.1"}}},
                     {"about", {{"@id", "./"}}}});
    graph.push_back(root_json(drawing, payload));
    if (const auto& laboratory = drawing.document.job.laboratory; laboratory && !laboratory->name.empty())
        graph.push_back({{"@id", "#laboratory"}, {"@type", "Organization"}, {"name", laboratory->name}});
    graph.push_back(program_json(drawing.versions));
    graph.push_back(making_json(payload, fingerprint));
    for (const auto& [path, size] : payload) graph.push_back(file_json(path, size));
    Json crate;
    crate["@context"] = Json::array({"https://w3id.org/ro/crate/1.1/context", {{"prov", "http://www.w3.org/ns/prov#"}}});
    crate["@graph"] = std::move(graph);
    return evaluate::to_text(crate);
}

}  // namespace wayfolio::archive
