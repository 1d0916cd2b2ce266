#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/problem.hpp"
#include "service/answers/schemas.hpp"

#include "archive/verify/verify.hpp"
#include "catalogue/history.hpp"
#include "catalogue/query.hpp"
#include "compare/comparison.hpp"
#include "conformance/conformance.hpp"
#include "document/facts.hpp"
#include "document/read_document.hpp"
#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "gather/mapping/mapping.hpp"
#include "layouts/layout.hpp"
#include "produce/produce.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::service {
namespace {

constexpr NamedSchema all_schemas[] = {
    {"result", document::document_schema},
    {"facts", document::facts_schema},
    {"layout", layouts::layout_schema},
    {"mapping", gather::mapping_schema},
    {"evaluation", evaluate::evaluation_schema},
    {"findings", evaluate::findings_schema},
    {"comparison", compare::comparison_schema},
    {"catalogue", catalogue::catalogue_schema},
    {"history", catalogue::history_schema},
    {"verification", archive::verification_schema},
    {"conformance", conformance::conformance_schema},
};

/// The least that a report can be drawn of.
constexpr std::string_view tiny = R"({"format": "wayfolio-result", "version": 1, "job": {"data_notice": "Invented data"},
  "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0, 100, 200, 300, 400],
              "runs": [{"approach": "positive", "deviations": [0, 1, 2, 1, 0]}]}]})";

}  // namespace

std::span<const NamedSchema> schemas() { return all_schemas; }

Answer layout_list(const Call& call, const Workshop&) {
    evaluate::Json json = evaluate::Json::array();
    for (const std::string& name : layouts::shipped_layouts())
        json.push_back({{"name", name}, {"title", layouts::read_layout(name, "").title}});
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer schema(const Call& call, const Workshop&) {
    const auto named = std::ranges::find(all_schemas, call.named, &NamedSchema::name);
    if (named == std::end(all_schemas)) {
        std::string known;
        for (const NamedSchema& one : all_schemas) known += (known.empty() ? "" : ", ") + std::string(one.name);
        throw Refused(problems::nothing_there, "there are the schemas " + known);
    }
    return tagged(call.request, {200, "application/schema+json", std::string(named->text()), ""});
}

Answer problem_list(const Call& call, const Workshop&) {
    evaluate::Json json = evaluate::Json::array();
    for (const ProblemKind& kind : problem_kinds()) json.push_back({{"code", kind.code}, {"status", kind.status}, {"title", kind.title}});
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer description(const Call& call, const Workshop&) { return tagged(call.request, {200, "application/json", open_api(), ""}); }

Answer ready(const Call&, const Workshop& workshop) {
    const document::Document document =
        document::read_document(std::string(tiny), "tiny", [](const std::string&) { return std::string(); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("summary", "");
    (void)produce::report_pdf({document, evaluation, layout, workshop.shaper});
    return {200, "text/plain", "ready\n", ""};
}

}  // namespace wayfolio::service
