#include "service/answers/routes.hpp"

#include "evaluate/written/json_text.hpp"
#include "units/version.hpp"

#include <algorithm>

namespace wayfolio::service {
namespace {

using evaluate::Json;

Json option_json(const QueryOption& option) {
    Json schema{{"type", "string"}};
    if (!option.words.empty()) schema["enum"] = option.words;
    if (!option.standard.empty()) schema["default"] = option.standard;
    return {{"name", option.name},           {"in", "query"},    {"required", option.required},
            {"description", option.meaning}, {"schema", schema}, {"example", option.example}};
}

/// What stands in braces in a path.
Json name_in(std::string_view path) {
    const std::string_view name = path.substr(path.find('{') + 1, path.find('}') - path.find('{') - 1);
    const bool fingerprint = name == "fingerprint", batch = name == "batch";
    return {{"name", name},
            {"in", "path"},
            {"required", true},
            {"description", fingerprint ? "of the record: at least its first 16 digits"
                            : batch     ? "as its posting named it"
                                        : "which of them"},
            {"schema", {{"type", "string"}}},
            {"example", fingerprint || batch ? "0123456789abcdef" : "result"}};
}

/// One part of a multipart body.
struct PartOf {
    std::string_view name, meaning;
    bool required = false, many = false, json = true;
};

std::vector<PartOf> parts_of(Takes takes) {
    const PartOf files{"file", "files that the document names (trace, logo, exports), each with its filename", false, true, false};
    switch (takes) {
        case Takes::Nothing:
            return {};
        case Takes::Document:
            return {{"document", "the result document", true}, {"layout", "a layout of one's own"}, files};
        case Takes::Pdf:
            return {{"pdf", "a report or a figure of this program", true, false, false}};
        case Takes::TwoDocuments:
            return {{"old", "a result document", true}, {"new", "the one that came after it", true}, files};
        case Takes::ExportsAlone:
            return {{"file", "an export, with its filename", true, true, false},
                    {"given",
                     "what is said by hand: roles ({file, sheet, column from 1, role}, as the proposal calls them), sheets ({file, "
                     "names}) and how texts are read, read_as ({file, encoding, delimiter, decimal_mark}, in the words of a mapping)"}};
        case Takes::Exports:
            return {{"mapping", "what the columns of the exports are", true},
                    {"into", "a result document that the readings are added to"},
                    {"file", "an export, with its filename", true, true, false},
                    {"facts", "a file of facts, with its filename", false, true}};
        case Takes::Batch:
            return {{"manifest", "the jobs: JSON, a job a line, as wayfolio-batch(7) has it", true, false, false},
                    {"file", "documents, layouts and what documents name, each with its filename", true, true, false}};
        case Takes::MaybeFacts:
            return {{"facts", "a file of facts, with its filename", false, true}, files};
    }
    return {};
}

Json multipart_json(Takes takes) {
    Json schema{{"type", "object"}, {"required", Json::array()}, {"properties", Json::object()}};
    for (const PartOf& part : parts_of(takes)) {
        const Json one = part.json ? Json{{"type", "object"}} : Json{{"type", "string"}, {"contentEncoding", "binary"}};
        Json property = part.many ? Json{{"type", "array"}, {"items", one}} : one;
        property["description"] = part.meaning;
        schema["properties"][std::string(part.name)] = std::move(property);
        if (part.required) schema["required"].push_back(part.name);
    }
    return {{"schema", schema}};
}

Json body_json(Takes takes) {
    Json content = Json::object();
    if (takes == Takes::Document)
        content["application/json"]["schema"] = {{"type", "object"}, {"description", "the result document, as /v1/schemas/result has it"}};
    if (takes == Takes::Pdf) content["application/pdf"]["schema"] = {{"type", "string"}, {"contentEncoding", "binary"}};
    content["multipart/form-data"] = multipart_json(takes);
    return {{"required", takes != Takes::MaybeFacts}, {"content", content}};
}

/// Of what keeps something, or lets it go.
Json changing_responses(const Route& route, const Json& content) {
    Json responses;
    if (route.method == "DELETE")
        responses["204"] = {{"description", "it is gone"}};
    else
        responses["200"] = {{"description", route.takes == Takes::Nothing ? "as asked" : "it was there"}, {"content", content}};
    if (route.takes == Takes::Document) responses["201"] = {{"description", "filed now"}, {"content", content}};
    if (route.takes == Takes::Batch)
        responses["202"] = {{"description", "taken in; Location is where its progress is told"}, {"content", content}};
    responses["default"] = {{"$ref", "#/components/responses/Problem"}};
    return responses;
}

Json responses_json(const Route& route) {
    Json content = Json::object();
    for (const std::string_view type : route.gives) {
        const bool text = type.find("json") != std::string_view::npos;
        content[std::string(type)] = {{"schema", text ? Json::object() : Json{{"type", "string"}}}};
    }
    Json responses{{"200", {{"description", "as asked"}, {"content", content}}}};
    if (route.by != By::Any && route.method != "GET") return changing_responses(route, content);
    if (route.path.starts_with("/v1/")) responses["304"] = {{"description", "the client has it: If-None-Match named its ETag"}};
    responses["default"] = {{"$ref", "#/components/responses/Problem"}};
    return responses;
}

Json operation_json(const Route& route) {
    Json operation{{"operationId", route.name}, {"summary", route.summary}};
    Json parameters = Json::array();
    if (route.path.find('{') != std::string_view::npos) parameters.push_back(name_in(route.path));
    for (const QueryOption& option : route.options) parameters.push_back(option_json(option));
    if (route.by == By::Keepers && route.method == "POST")
        parameters.push_back({{"name", "Idempotency-Key"},
                              {"in", "header"},
                              {"required", false},
                              {"description", "what the client calls this filing; a key that was used for another one is refused"},
                              {"schema", {{"type", "string"}}},
                              {"example", "K-2041/0"}});
    if (!parameters.empty()) operation["parameters"] = parameters;
    if (route.takes != Takes::Nothing) operation["requestBody"] = body_json(route.takes);
    operation["responses"] = responses_json(route);
    return operation;
}

Json problem_schema() {
    const Json text{{"type", "string"}}, number{{"type", "integer"}};
    const Json fault{
        {"type", "object"},
        {"properties",
         {{"file", text}, {"line", number}, {"column", number}, {"pointer", text}, {"found", text}, {"expected", text}, {"hint", text}}}};
    return {{"type", "object"},
            {"required", {"type", "title", "status", "code"}},
            {"properties",
             {{"type", text},
              {"title", text},
              {"status", number},
              {"code", text},
              {"detail", text},
              {"faults", {{"type", "array"}, {"items", fault}}}}}};
}

}  // namespace

std::string open_api() {
    Json json{
        {"openapi", "3.1.0"},
        {"info",
         {{"title", "wayfolio"},
          {"version", version()},
          {"description", "Reports, figures and evaluations of machine calibrations. Only /v1/records and /v1/batches keep anything."}}},
        {"security", {{{"token", Json::array()}}, Json::object()}},
        {"paths", Json::object()}};
    for (const Route& route : routes()) {
        std::string method(route.method);
        std::ranges::transform(method, method.begin(), [](char c) { return static_cast<char>(c - 'A' + 'a'); });
        json["paths"][std::string(route.path)][method] = operation_json(route);
    }
    const Json plain{{"200", {{"description", "as asked"}, {"content", {{"text/plain", {{"schema", {{"type", "string"}}}}}}}}}};
    json["paths"]["/healthz"]["get"] = {{"operationId", "health"}, {"summary", "Whether the service answers"}, {"responses", plain}};
    json["paths"]["/metrics"]["get"] = {{"operationId", "metrics"}, {"summary", "Counters for Prometheus"}, {"responses", plain}};
    json["components"] = {{"securitySchemes", {{"token", {{"type", "http"}, {"scheme", "bearer"}}}}},
                          {"responses",
                           {{"Problem",
                             {{"description", "what did not work (RFC 9457)"},
                              {"content", {{"application/problem+json", {{"schema", problem_schema()}}}}}}}}}};
    return evaluate::to_text(json);
}

}  // namespace wayfolio::service
