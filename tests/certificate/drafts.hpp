#pragma once
#include "certificate/certificate.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "input/problem.hpp"
#include "document/read_document.hpp"
#include "support/run.hpp"

#include <nlohmann/json.hpp>

/// Drafts of certificates from documents, and the scripts that look at them.
namespace wayfolio::testing {

using Json = nlohmann::json;
using support::file_bytes;
using support::run;
using support::TemporaryFolder;
namespace fs = std::filesystem;

inline const fs::path source = WAYFOLIO_SOURCE_FOLDER;

inline Json sample(const std::string& name) { return Json::parse(file_bytes(source / "sample-results" / name)); }

/// A sample with the two things that a certificate asks for and no report does.
inline Json complete(const std::string& name = "short-axis.json") {
    Json document = sample(name);
    document["job"]["laboratory"]["country"] = "DE";
    document["job"]["place_kind"] = "customer";
    return document;
}

/// A document with its evaluation and the draft.
struct Drafted {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    certificate::Certificate draft = certificate::certificate_draft(document, evaluation);

    explicit Drafted(const fs::path& path) : document(document::read_document(path)) {}
    explicit Drafted(const Json& json)
        : document(document::read_document(
              json.dump(), "job.json", [](const std::string& name) -> std::string { throw input::InputMissing(name, "is not there"); })) {}
};

/// What a script of this folder says of files with these bytes; empty where it finds nothing and says nothing.
inline support::Ran looked_at(const std::string& script, const std::vector<std::string>& contents) {
    const TemporaryFolder folder;
    std::string files;
    for (std::size_t i = 0; i < contents.size(); ++i) files += " " + folder.file(std::to_string(i), contents[i]);
    return run("/usr/bin/python3 -B " + (source / "tests/certificate" / script).string() + files);
}
inline support::Ran held_to_outline(const std::string& xml) { return looked_at("outline.py", {xml}); }
inline support::Ran held_to_numbers(const Drafted& drafted, const std::string& xml) {
    return looked_at("numbers.py", {evaluate::evaluation_json(drafted.document, drafted.evaluation), xml});
}

/// `text` with the first `part` replaced, which must be there.
inline std::string with(std::string text, const std::string& part, const std::string& other) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) throw std::logic_error("no " + part);
    return text.replace(at, part.size(), other);
}

/// What stands between the first `from` and the next `to` after it, both included.
inline std::string between(const std::string& text, const std::string& from, const std::string& to) {
    const std::size_t start = text.find(from), end = text.find(to, start);
    if (start == std::string::npos || end == std::string::npos) throw std::logic_error("no " + from + " … " + to);
    return text.substr(start, end + to.size() - start);
}

}  // namespace wayfolio::testing
