#include "evaluate/written/evaluation_json.hpp"

#include "evaluate/written/json_parts.hpp"
#include "units/version.hpp"

namespace wayfolio::evaluate {
namespace {

Json document_json(const document::Document& document) {
    Json json{{"sha256", document.sha256}};
    add(json, "job", document.job.number);
    if (document.job.revision) json["revision"] = *document.job.revision;
    return json;
}

template <class Items, class ToJson>
Json list_json(const Items& items, ToJson to_json) {
    auto json = Json::array();
    for (const auto& item : items) json.push_back(to_json(item));
    return json;
}

Json lack_json(const Lack& lack) { return {{"for", lack.purpose}, {"what", lack.what}, {"pointer", lack.pointer}}; }
Json warning_json(const Warning& warning) { return {{"pointer", warning.pointer}, {"text", warning.text}}; }

}  // namespace

std::string evaluation_json(const document::Document& document, const Evaluation& evaluation) {
    Json json{{"format", "wayfolio-evaluation"}, {"version", 1}};
    json["document"] = document_json(document);
    json["program"] = {{"name", "wayfolio"}, {"version", version()}};
    json["series"] = list_json(evaluation.series, [&](const auto& series) { return series_json(series, evaluation); });
    json["uncertainty"] = list_json(evaluation.uncertainty, uncertainty_json);
    json["decisions"] = list_json(evaluation.decisions, decision_json);
    json["squareness"] = list_json(evaluation.squareness, squareness_json);
    json["setup"] = list_json(evaluation.setup, setup_json);
    json["cosine_error"] = list_json(evaluation.cosine, cosine_json);
    json["environment"] = environment_json(evaluation.environment);
    json["known_biases"] = list_json(evaluation.known_biases, known_bias_json);
    json["compensation"] = list_json(evaluation.compensation, compensation_json);
    json["compare"] = list_json(evaluation.found_against_left, found_against_left_json);
    json["compare_squareness"] = list_json(evaluation.squareness_found_against_left, [&](const auto& comparison) {
        return squareness_found_against_left_json(comparison, evaluation);
    });
    json["lacking"] = list_json(evaluation.lacking, lack_json);
    json["warnings"] = list_json(evaluation.warnings, warning_json);
    json["defaults_used"] = evaluation.defaults_used;
    return to_text(json);
}

}  // namespace wayfolio::evaluate
