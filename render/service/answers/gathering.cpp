#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/problem.hpp"

#include "evaluate/written/json_text.hpp"
#include "gather/gather.hpp"
#include "gather/mapping/mapping.hpp"
#include "gather/mapping/open_questions.hpp"
#include "gather/propose/propose.hpp"
#include "input/json/object_reader.hpp"

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
    Json json{{"file", seen.file}, {"columns", columns}, {"several_blocks", seen.several_blocks}};
    if (!seen.sheet.empty()) json["sheet"] = seen.sheet;
    if (const auto& read = seen.read_as)
        json["read_as"] = {{"encoding", gather::word_for(gather::encoding_words, *read->encoding)},
                           {"delimiter", gather::word_for(gather::delimiter_words, *read->delimiter)},
                           {"decimal_mark", seen.decimal_open ? "" : gather::word_for(gather::decimal_mark_words, *read->decimal_mark)},
                           {"first_row", seen.first_row}};
    return json;
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
        case gather::AnsweredBy::Column:
            return "column";
    }
    return {};
}

Json as_json(const gather::OpenQuestion& question) {
    Json choices = Json::array();
    for (const gather::Choice& choice : question.choices) choices.push_back({{"says", choice.says}, {"patch", Json::parse(choice.patch)}});
    return {{"at", question.at}, {"key", question.key}, {"asks", question.asks}, {"by", word(question.by)}, {"choices", choices}};
}

void take_read_as(input::ObjectReader& reader, input::Faults& faults, std::size_t most, gather::Given& given) {
    for (const input::Value& item : reader.array("read_as", "an array of texts", most)) {
        input::ObjectReader text(item, faults, "an object: file, encoding, delimiter, decimal_mark");
        const std::string file = text.required_text("file", "the export, as the proposal calls it");
        if (given.read_as.contains(file)) faults.add_wrong(item, "each text once");
        gather::ReadAs& said = given.read_as[file];
        said.encoding = text.choice("encoding", "an encoding", gather::encoding_words);
        said.delimiter = text.choice("delimiter", "a delimiter", gather::delimiter_words);
        said.decimal_mark = text.choice("decimal_mark", "a decimal mark", gather::decimal_mark_words);
        text.finish();
    }
}

/// What was said by hand: {"roles": [{file, sheet, column, role}], "sheets": [{file, names}], "read_as": [{file, encoding, delimiter,
/// decimal_mark}]}.
gather::Given given_in(const Call& call) {
    gather::Given given;
    const auto part = call.files.parts.find("given");
    if (part == call.files.parts.end()) return given;
    constexpr std::size_t most = 10'000;
    const input::Json read = input::read_json(part->second, "given");
    input::Faults faults("given", read);
    input::ObjectReader reader(read.root, faults, "an object: roles, sheets, read_as");
    for (const input::Value& item : reader.array("roles", "an array of roles", most)) {
        input::ObjectReader role(item, faults, "an object: file, sheet, column, role");
        gather::GivenRole& one = given.roles.emplace_back();
        one.file = role.required_text("file", "the export, as the proposal calls it");
        one.sheet = role.text("sheet");
        one.column = role.whole("column", 1, most).value_or(0);
        one.role = role.required_text("role", "what the column is");
        role.finish();
    }
    for (const input::Value& item : reader.array("sheets", "an array of workbooks", most)) {
        input::ObjectReader workbook(item, faults, "an object: file, names");
        const std::string file = workbook.required_text("file", "the name of the workbook");
        if (given.sheets.contains(file)) faults.add_wrong(item, "each workbook once");
        given.sheets[file] = workbook.texts("names");
        if (given.sheets[file].empty()) faults.add_missing(item, "names", "the names of the sheets that are read");
        workbook.finish();
    }
    take_read_as(reader, faults, most, given);
    reader.finish();
    faults.reject_if_any();
    return given;
}

/// A workbook of several sheets of which nobody said which are read: it is asked for, and looked at when that was said.
Json take_out_open_workbooks(std::vector<gather::ExportFile>& exports, const gather::Given& given) {
    Json sheets = Json::array();
    std::erase_if(exports, [&](const gather::ExportFile& file) {
        if (!gather::is_sheet_name(file.name)) return false;
        gather::ExportFaults faults(file.path);
        const std::vector<std::string> names = gather::sheets_of(file, faults);
        if (names.size() < 2) return false;  // what cannot be read is told when it is looked at
        sheets.push_back({{"file", file.name}, {"names", names}});
        return !given.sheets.contains(file.name);
    });
    return sheets;
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
    const gather::Given given = given_in(call);
    const Json sheets = take_out_open_workbooks(exports, given);
    const gather::Proposal made = gather::propose(exports, given);
    Json seen = Json::array(), questions = Json::array(), roles = Json::array();
    for (const gather::ExportSeen& one : made.exports) seen.push_back(as_json(one));
    for (const gather::OpenQuestion& question : gather::open_questions(made.mapping)) questions.push_back(as_json(question));
    for (const gather::RoleWord& one : gather::role_words())
        roles.push_back({{"role", one.role}, {"says", one.says}, {"only_one", one.only_one}});
    const Json json{
        {"mapping", Json::parse(made.mapping)}, {"exports", seen}, {"questions", questions}, {"sheets", sheets}, {"roles", roles}};
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

}  // namespace wayfolio::service
