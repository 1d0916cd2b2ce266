#include "batch/outcome.hpp"

#include "evaluate/written/json_text.hpp"
#include "input/digest.hpp"
#include "input/encoding.hpp"

#include <algorithm>

namespace wayfolio::batch {
namespace {

using evaluate::Json;

constexpr std::pair<State, std::string_view> words[] = {{State::Done, "done"}, {State::Faulty, "faulty"}, {State::Failed, "failed"}};

std::string digest_of(const Json& json) {
    constexpr std::size_t digits = 16;
    return input::sha256_hex(evaluate::to_text(json)).substr(0, digits);
}

Json key_json(const Key& key) {
    return {{"fingerprint", key.fingerprint},
            {"document", key.document},
            {"layout", key.layout},
            {"fonts", key.fonts},
            {"versions", key.versions}};
}

std::string text_in(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && found->is_string() ? found->get<std::string>() : "";
}

std::size_t whole_in(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && found->is_number_unsigned() ? found->get<std::size_t>() : 0;
}

Json list_in(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && found->is_array() ? *found : Json::array();
}

void read_lists(const Json& json, Outcome& outcome) {
    for (const Json& file : list_in(json, "files"))
        outcome.files.push_back({text_in(file, "file"), text_in(file, "sha256"), whole_in(file, "bytes")});
    for (const Json& fault : list_in(json, "faults"))
        outcome.faults.push_back({text_in(fault, "file"),
                                  {whole_in(fault, "line"), whole_in(fault, "column"), text_in(fault, "pointer")},
                                  text_in(fault, "found"),
                                  text_in(fault, "expected"),
                                  text_in(fault, "hint")});
    for (const Json& line : list_in(json, "changed"))
        if (line.is_string()) outcome.changed.push_back(line.get<std::string>());
}

}  // namespace

Key key_of(const produce::InputList& inputs) {
    const Json list = Json::parse(inputs.list);
    return {.fingerprint = inputs.fingerprint,
            .document = digest_of({list.at("document"), list.at("side_files")}),
            .layout = digest_of({list.at("drawn"), list.at("layouts")}),
            .fonts = digest_of(list.at("fonts")),
            .versions = digest_of(list.at("versions"))};
}

std::string difference(const Key& before, const Key& now) {
    std::string text;
    const auto add = [&](const std::string& a, const std::string& b, const char* what) {
        if (a != b) text += (text.empty() ? "" : ", ") + std::string(what);
    };
    add(before.document, now.document, "another document");
    add(before.layout, now.layout, "another layout");
    add(before.fonts, now.fonts, "other fonts");
    add(before.versions, now.versions, "another version or build of the program or its libraries");
    return text;
}

std::string to_line(const Outcome& outcome) {
    Json json{{"name", input::printable(outcome.name)},
              {"state", std::ranges::find(words, outcome.state, &std::pair<State, std::string_view>::first)->second}};
    if (!outcome.key.fingerprint.empty()) json["key"] = key_json(outcome.key);
    if (!outcome.files.empty()) json["files"] = Json::array();
    for (const WrittenFile& file : outcome.files)
        json["files"].push_back({{"file", file.file}, {"sha256", file.sha256}, {"bytes", file.bytes}});
    if (!outcome.faults.empty()) json["faults"] = Json::array();
    for (const input::Problem& fault : outcome.faults) json["faults"].push_back(evaluate::fault_json(fault));
    if (!outcome.reason.empty()) json["reason"] = input::printable(outcome.reason);
    if (outcome.changes > 0) {
        json["changes"] = outcome.changes;
        json["changed"] = Json::array();
        for (const std::string& line : outcome.changed) json["changed"].push_back(input::printable(line));
    }
    return evaluate::to_line(json);
}

std::optional<Outcome> from_line(std::string_view line) {
    const Json json = Json::parse(line, nullptr, /*allow_exceptions=*/false);
    if (!json.is_object()) return std::nullopt;
    const auto state = std::ranges::find(words, text_in(json, "state"), &std::pair<State, std::string_view>::second);
    if (state == std::end(words) || text_in(json, "name").empty()) return std::nullopt;
    Outcome outcome{.name = text_in(json, "name"), .state = state->first};
    const auto found = json.find("key");
    const Json key = found != json.end() && found->is_object() ? *found : Json::object();
    outcome.key = {text_in(key, "fingerprint"), text_in(key, "document"), text_in(key, "layout"), text_in(key, "fonts"),
                   text_in(key, "versions")};
    outcome.reason = text_in(json, "reason");
    outcome.changes = whole_in(json, "changes");
    read_lists(json, outcome);
    return outcome;
}

}  // namespace wayfolio::batch
