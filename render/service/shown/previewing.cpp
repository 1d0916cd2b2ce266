#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/problem.hpp"
#include "service/shown/shown.hpp"

#include "document/read_document.hpp"
#include "evaluate/written/json_text.hpp"
#include "input/digest.hpp"
#include "input/read_file.hpp"

namespace wayfolio::service {
namespace {

/// Of the disk only the document that the command line named, and what that names beside itself.
Shown shown_now(const Workshop& workshop) {
    if (workshop.previewed.empty()) throw Refused(problems::nothing_there, "wayfolio preview RESULT.json shows a document");
    return shown_at(workshop.previewed);
}

std::string stamp_of(const Shown& shown) {
    std::string all = input::sha256_hex(shown.document);
    for (const auto& [name, bytes] : shown.files) all += input::sha256_hex(name) + input::sha256_hex(bytes);
    return input::sha256_hex(all);
}

}  // namespace

Shown shown_at(const std::filesystem::path& path) {
    Shown shown{.name = path.filename().string(), .document = input::read_regular_file(path), .files = {}, .title = {}};
    const auto beside = [&](const std::string& name) { return shown.files[name] = input::read_regular_file(path.parent_path() / name); };
    try {
        shown.title = document::read_document(shown.document, shown.name, beside).job.title;
        shown.sound = true;
    } catch (const input::InputRejected&) {  // which the page tells, by /v1/check
    }
    return shown;
}

Answer previewed(const Call& call, const Workshop& workshop) {
    const Shown shown = shown_now(workshop);
    evaluate::Json json{{"name", shown.name}, {"stamp", stamp_of(shown)}, {"files", evaluate::Json::array()}};
    for (const auto& [name, bytes] : shown.files) json["files"].push_back(name);
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer previewed_file(const Call& call, const Workshop& workshop) {
    Shown shown = shown_now(workshop);
    if (call.named == shown.name) return tagged(call.request, {200, "application/json", std::move(shown.document), ""});
    const auto file = shown.files.find(call.named);
    if (file == shown.files.end()) throw Refused(problems::nothing_there, "the document names no such file");
    return tagged(call.request, {200, "application/octet-stream", std::move(file->second), ""});
}

}  // namespace wayfolio::service
