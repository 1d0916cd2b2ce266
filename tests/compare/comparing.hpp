#pragma once
#include "compare/comparison.hpp"
#include "document/read_document.hpp"
#include "support/run.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

/// Documents of the tests of this room, and what differs between two of them.
namespace wayfolio::comparing {

using Json = nlohmann::json;

inline std::string no_side_files(const std::string& name) {
    throw std::logic_error("the sample names no side file, yet " + name + " was asked for");
}

/// A document and its evaluation, kept together.
struct Kept {
    explicit Kept(const Json& json)
        : document(document::read_document(json.dump(), "job.json", no_side_files)), evaluation(evaluate::evaluate(document)) {}
    document::Document document;
    evaluate::Evaluation evaluation;
};

inline Json file(const std::string& name) {
    return Json::parse(support::file_bytes(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/" + name));
}

/// One state of a document that holds both.
inline Json only_state(Json document, const std::string& state) {
    Json series = Json::array();
    for (const Json& one : document["series"])
        if (one["state"] == state) series.push_back(one);
    document["series"] = series;
    for (const char* by_series : {"compensation", "squareness", "uncertainty"}) document.erase(by_series);
    return document;
}

inline Json sample() { return file("short-axis.json"); }

inline compare::Comparison compared(const Json& was, const Json& now) {
    const Kept before(was), after(now);
    return compare::compare({"old.json", before.document, before.evaluation}, {"new.json", after.document, after.evaluation});
}

inline Json& positioning(Json& document) { return document["series"][0]; }

inline const compare::ParameterChange& named(const compare::Comparison& comparison, const std::string& series,
                                             const std::string& parameter) {
    const auto found = std::ranges::find_if(comparison.parameters,
                                            [&](const auto& change) { return change.series == series && change.parameter == parameter; });
    if (found == comparison.parameters.end()) throw std::runtime_error("no result " + parameter);
    return *found;
}

inline const compare::ParameterChange& change_of(const compare::Comparison& comparison, const std::string& parameter) {
    return named(comparison, "x-exx-found", parameter);
}

}  // namespace wayfolio::comparing
