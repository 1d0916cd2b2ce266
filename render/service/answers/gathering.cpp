#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/problem.hpp"

#include "evaluate/written/json_text.hpp"
#include "gather/gather.hpp"
#include "gather/mapping/mapping.hpp"
#include "gather/mapping/open_questions.hpp"
#include "gather/propose/propose.hpp"

#include <algorithm>

namespace wayfolio::service {
namespace {

using evaluate::Json;

std::vector<gather::ExportFile> exports_in(const Call& call) {
    std::vector<gather::ExportFile> exports;
    for (const auto& [name, bytes] : call.files.side_files) exports.push_back(gather::export_of_bytes(name, bytes));
    return exports;
}

Json as_json(const gather::ExportSeen& seen) {
    Json columns = Json::array();
    for (const gather::ColumnSeen& column : seen.columns)
        columns.push_back({{"head", column.head}, {"becomes", column.becomes}, {"first", column.first}});
    return {{"file", seen.file}, {"columns", columns}, {"several_blocks", seen.several_blocks}};
}

std::string_view word(gather::AnsweredBy by) {
    switch (by) {
        case gather::AnsweredBy::Choice:
            return "choice";
        case gather::AnsweredBy::Text:
            return "text";
        case gather::AnsweredBy::Words:
            return "words";
        case gather::AnsweredBy::Pairs:
            return "pairs";
    }
    return {};
}

Json as_json(const gather::OpenQuestion& question) {
    Json choices = Json::array();
    for (const gather::Choice& choice : question.choices) choices.push_back({{"says", choice.says}, {"patch", Json::parse(choice.patch)}});
    return {{"at", question.at}, {"key", question.key}, {"asks", question.asks}, {"by", word(question.by)}, {"choices", choices}};
}

}  // namespace

Answer gathered(const Call& call, const Workshop&) {
    const auto& files = call.files;
    // A mapping names facts by where they lie beside it; here their names alone count.
    const auto facts = [&](const std::string& place) {
        const std::string name = place.substr(place.rfind('/') + 1);
        return gather::FactsFile{name, name, file_in(files.facts, name),
                                 [&](const std::string& logo) { return file_in(files.side_files, logo); }};
    };
    gather::GatherRequest request{
        .mapping = part_in(call, "mapping"), .mapping_file = "mapping.json", .read_facts = facts, .state = call.option("state")};
    request.exports = exports_in(call);
    const auto named = gather::read_mapping(request.mapping, request.mapping_file).facts;
    for (const auto& [name, bytes] : files.facts)
        if (std::ranges::none_of(named, [&](const auto& one) { return ("/" + one.file).ends_with("/" + name); }))
            request.facts.push_back(facts(name));
    if (const auto into = files.parts.find("into"); into != files.parts.end()) request.into = {into->second, "into"};
    request.read_side_file = [&](const std::string& name) { return file_in(files.side_files, name); };
    const gather::Gathered made = gather::gather(request);
    const evaluate::Json json{{"document", made.document}, {"account", gather::account_text(made.account)}};
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer proposal(const Call& call, const Workshop&) {
    std::vector<gather::ExportFile> exports = exports_in(call);
    std::ranges::stable_sort(exports, gather::before_by_number, &gather::ExportFile::name);
    const gather::Proposal made = gather::propose(exports);
    Json seen = Json::array(), questions = Json::array();
    for (const gather::ExportSeen& one : made.exports) seen.push_back(as_json(one));
    for (const gather::OpenQuestion& question : gather::open_questions(made.mapping)) questions.push_back(as_json(question));
    const Json json{{"mapping", Json::parse(made.mapping)}, {"exports", seen}, {"questions", questions}};
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

}  // namespace wayfolio::service
