#include "produce/input_list.hpp"

#include "input/digest.hpp"

#include <array>
#include <utility>

namespace wayfolio::produce {
namespace {

using evaluate::Json;

Json layouts_json(const layouts::Layout& layout) {
    auto json = Json::array({file_json(kept::layout(1), input::sha256_hex(layout.bytes))});
    for (std::size_t place = 0; place < layout.extended.size(); ++place)
        json.push_back(file_json(kept::layout(place + 2), input::sha256_hex(layout.extended[place])));
    return json;
}

Json fonts_json(const text::Shaper& shaper) {
    auto json = Json::array();
    for (const auto& font : shaper.fonts()) json.push_back(file_json(font.file, font.sha256));
    return json;
}

Json versions_json(const LibraryVersions& versions) {
    auto json = Json::object();
    for (const LibraryVersion& one : versions) json[one.name] = one.version;
    return json;
}

std::string source_line(const Json& list) {
    std::string line;
    const auto add = [&](const std::string& part) { line += (line.empty() ? "" : "; ") + part; };
    const auto add_file = [&](const Json& file) { add(file["file"].get<std::string>() + " sha256:" + file["sha256"].get<std::string>()); };
    if (list.contains("document")) add_file(list["document"]);
    for (const char* files : {"documents", "side_files", "layouts", "fonts"})
        if (list.contains(files))
            for (const Json& file : list[files]) add_file(file);
    for (const auto& [name, version] : list["versions"].items()) add(name + " " + version.get<std::string>());
    return line;
}

}  // namespace

Json file_json(std::string_view name, const std::string& sha256) { return {{"file", name}, {"sha256", sha256}}; }
Json apart_json(std::string_view name, const std::string& sha256) { return {{"file", name}, {"sha256", sha256}, {"apart", true}}; }

Json ended(Json json, const layouts::Layout& layout, const text::Shaper& shaper, const LibraryVersions& versions) {
    json["layouts"] = layouts_json(layout);
    json["fonts"] = fonts_json(shaper);
    json["versions"] = versions_json(versions);
    return json;
}

InputList input_list(Json json, const layouts::Layout& layout, const text::Shaper& shaper, const LibraryVersions& versions) {
    return input_list(ended(std::move(json), layout, shaper, versions));
}

InputList input_list(const Json& list) {
    const std::string text = evaluate::to_text(list);
    return {text, input::sha256_hex(text), source_line(list)};
}

void sign(output::Metadata& metadata, const InputList& inputs) {
    metadata.keywords = "fingerprint sha256:" + inputs.fingerprint;
    metadata.creator = "wayfolio " + std::string(version());
    metadata.identifier = "sha256:" + inputs.fingerprint;
    metadata.source = inputs.in_line;
}

Json signed_json(const InputList& inputs) {
    return {{"fingerprint", "sha256:" + inputs.fingerprint}, {"inputs", Json::parse(inputs.list)}};
}

std::string media_type(std::string_view name) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 9> types{
        {{".json", "application/json"}, {".xml", "text/xml"}, {".pdf", "application/pdf"}, {".svg", "image/svg+xml"}, {".csv", "text/csv"},
         {".otf", "font/otf"}, {".ttf", "font/ttf"}, {".png", "image/png"}, {".txt", "text/plain"}}};
    for (const auto& [ending, type] : types)
        if (name.ends_with(ending)) return std::string(type);
    return "application/octet-stream";
}

}  // namespace wayfolio::produce
