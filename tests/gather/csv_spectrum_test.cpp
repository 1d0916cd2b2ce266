#include "gather/exports/read_export.hpp"
#include "input/json/json.hpp"
#include "input/read_file.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <set>

using namespace wayfolio;
using namespace wayfolio::gather;

namespace {

/// Where Debian's package node-csv-spectrum puts them: csvs/NAME.csv, and json/NAME.json with what any reader of RFC 4180 makes of it.
const std::filesystem::path cases = "/usr/share/nodejs/csv-spectrum";

using Records = std::vector<std::map<std::string, std::string>>;

/// One record a row, by the cells of the first row.
Records records_of(const std::filesystem::path& path) {
    ExportFaults faults(path.string());
    std::vector<std::string> heads;
    Records records;
    (void)read_text_rows(export_file(path.string()), {}, faults, [&](const Row& row) {
        const bool is_head = heads.empty();
        auto* const record = is_head ? nullptr : &records.emplace_back();
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            if (is_head) heads.emplace_back(row.cells[i].text);
            else (*record)[heads.at(i)] = row.cells[i].text;
        }
    });
    CHECK_FALSE(faults.any());
    return records;
}

Records expected_records(const std::filesystem::path& path) {
    const std::string bytes = input::read_file(path.string());
    const input::Json json = input::read_json(bytes, path.string());
    Records records;
    for (const input::Value& item : json.root.items) {
        auto& record = records.emplace_back();
        for (const input::Value& member : item.items) record[std::string(member.key)] = member.text;
    }
    return records;
}

}  // namespace

TEST_CASE("the published cases of csv-spectrum give the records that stand beside them") {
    INFO("these cases come with Debian's package node-csv-spectrum: .ci/install tests");
    REQUIRE(std::filesystem::is_directory(cases / "csvs"));
    std::set<std::string> names;
    for (const auto& file : std::filesystem::directory_iterator(cases / "csvs")) names.insert(file.path().stem().string());
    for (const char* known : {"comma_in_quotes", "empty", "empty_crlf", "escaped_quotes", "json", "newlines", "newlines_crlf",
                              "quotes_and_newlines", "simple", "simple_crlf", "utf8"})
        CHECK(names.contains(known));
    for (const std::string& name : names) {
        INFO(name);
        const Records expected = expected_records(cases / "json" / (name + ".json"));
        CHECK_FALSE(expected.empty());
        CHECK(records_of(cases / "csvs" / (name + ".csv")) == expected);
    }
}
