#include "gather/gathering.hpp"
#include "support/stored_zip.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;
using Catch::Matchers::StartsWith;

namespace {

struct TestSheet {
    std::string name;
    std::vector<std::vector<std::string>> rows;  ///< numbers are written as numbers; "" is no cell
    bool inline_words = false;                   ///< of .xlsx: words stand in their cells, not among the shared ones
};

bool is_number_text(const std::string& text) {
    return text.find_first_of("0123456789") != std::string::npos && text.find_first_not_of("-0123456789.") == std::string::npos;
}

std::string xlsx_of(const std::vector<TestSheet>& sheets) {
    const std::string head = R"(<?xml version="1.0" encoding="UTF-8" standalone="yes"?>)"
                             "\n",
                      office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
                      main_schema = "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
                      package = "http://schemas.openxmlformats.org/package/2006/";
    std::string types, workbook, relations, strings;
    std::vector<std::pair<std::string, std::string>> files;
    std::size_t count = 0, shared = 0;
    for (const TestSheet& sheet : sheets) {
        const std::string id = std::to_string(++count);
        types += R"(<Override PartName="/xl/worksheets/sheet)" + id +
                 R"(.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>)";
        workbook += R"(<sheet name=")" + sheet.name + R"(" sheetId=")" + id + R"(" r:id="rId)" + id + R"("/>)";
        relations += R"(<Relationship Id="rId)" + id + R"(" Type=")" + office +
                     R"(/worksheet" )"
                     R"(Target="worksheets/sheet)" +
                     id + R"(.xml"/>)";
        std::string data;
        for (std::size_t row = 0; row < sheet.rows.size(); ++row) {
            data += R"(<row r=")" + std::to_string(row + 1) + R"(">)";
            for (std::size_t column = 0; column < sheet.rows[row].size(); ++column) {
                const std::string& text = sheet.rows[row][column];
                if (text.empty()) continue;
                const std::string place = std::string(1, static_cast<char>('A' + column)) + std::to_string(row + 1);
                if (is_number_text(text))
                    data += R"(<c r=")" + place + R"("><v>)" + text + "</v></c>";
                else if (sheet.inline_words)
                    data += R"(<c r=")" + place + R"(" t="inlineStr"><is><t>)" + text + "</t></is></c>";
                else {
                    data += R"(<c r=")" + place + R"(" t="s"><v>)" + std::to_string(shared++) + "</v></c>";
                    strings += "<si><t>" + text + "</t></si>";
                }
            }
            data += "</row>";
        }
        files.emplace_back("xl/worksheets/sheet" + id + ".xml",
                           head + R"(<worksheet xmlns=")" + main_schema + R"("><sheetData>)" + data + "</sheetData></worksheet>");
    }
    relations += R"(<Relationship Id="rIdS" Type=")" + office + R"(/sharedStrings" Target="sharedStrings.xml"/>)";
    files.emplace_back(
        "[Content_Types].xml",
        head + R"(<Types xmlns=")" + package +
            R"(content-types"><Default )"
            R"(Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" )"
            R"(ContentType="application/xml"/><Override PartName="/xl/workbook.xml" )"
            R"(ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override )"
            R"(PartName="/xl/sharedStrings.xml" )"
            R"(ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/>)" +
            types + "</Types>");
    files.emplace_back("_rels/.rels", head + R"(<Relationships xmlns=")" + package +
                                          R"(relationships"><Relationship )"
                                          R"(Id="rId1" Type=")" +
                                          office + R"(/officeDocument" Target="xl/workbook.xml"/></Relationships>)");
    files.emplace_back("xl/workbook.xml", head + R"(<workbook xmlns=")" + main_schema +
                                              R"(" )"
                                              R"(xmlns:r=")" +
                                              office + R"("><sheets>)" + workbook + "</sheets></workbook>");
    files.emplace_back("xl/_rels/workbook.xml.rels", head +
                                                         R"(<Relationships )"
                                                         R"(xmlns=")" +
                                                         package + R"(relationships">)" + relations + "</Relationships>");
    files.emplace_back("xl/sharedStrings.xml", head + R"(<sst xmlns=")" + main_schema + R"(">)" + strings + "</sst>");
    return support::stored_zip(files);
}

std::string ods_of(const std::vector<TestSheet>& sheets) {
    const std::string oasis = "urn:oasis:names:tc:opendocument:xmlns:";
    std::string tables;
    for (const TestSheet& sheet : sheets) {
        tables += R"(<table:table table:name=")" + sheet.name + R"(">)";
        for (const auto& row : sheet.rows) {
            tables += "<table:table-row>";
            for (const std::string& text : row) {
                if (text.empty())
                    tables += "<table:table-cell/>";
                else if (is_number_text(text))
                    tables += R"(<table:table-cell office:value-type="float" )"
                              R"(office:value=")" +
                              text + R"("><text:p>)" + text + "</text:p></table:table-cell>";
                else
                    tables += R"(<table:table-cell office:value-type="string"><text:p>)" + text + "</text:p></table:table-cell>";
            }
            tables += "</table:table-row>";
        }
        tables += "</table:table>";
    }
    return support::stored_zip({{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
                                {"content.xml", R"(<?xml version="1.0" encoding="UTF-8"?><office:document-content )"
                                                R"(xmlns:office=")" +
                                                    oasis + R"(office:1.0" xmlns:table=")" + oasis + R"(table:1.0" xmlns:text=")" + oasis +
                                                    R"(text:1.0" )"
                                                    R"(office:version="1.2"><office:body><office:spreadsheet>)" +
                                                    tables + "</office:spreadsheet></office:body></office:document-content>"}});
}

const std::vector<std::vector<std::string>> sheet_rows{{"Invented "
                                                        "data"},
                                                       {},
                                                       {"Target", "Dir", "Run", "Dev", "Note"},
                                                       {"0", "+", "1", "0.1", "a"},
                                                       {"250.5", "+", "1", "", "b"},
                                                       {"250.5", "-", "1", "-1.4"},
                                                       {"0", "-", "1", "0.30"}};
const std::string sheet_readings = "0 250.5 | + 0.1 _ | - 0.3 -1.4";

std::string bytes_as(const std::string& form, const std::vector<TestSheet>& sheets) {
    return form == "xlsx" ? xlsx_of(sheets) : ods_of(sheets);
}

}  // namespace

TEST_CASE("sheets of both forms give the readings that their cells hold, whatever the file is called in capitals") {
    for (const std::string form : {"xlsx", "ods"}) {
        INFO(form);
        CHECK(words_of(mapping_of(rows), {{"x." + form, bytes_as(form, {{"Readings", sheet_rows}})}}) == sheet_readings);
        CHECK(words_of(mapping_of(rows + R"(, "sheet": )"
                                         R"("B")"),
                       {{"x." + form, bytes_as(form, {{"A", {{"Target", "1"}}}, {"B", sheet_rows}})}}) == sheet_readings);
    }
    CHECK(words_of(mapping_of(rows), {{"x.XLSX", xlsx_of({{"Readings", sheet_rows}})}}) == sheet_readings);
    CHECK(words_of(mapping_of(rows), {{"x.ODS", ods_of({{"Readings", sheet_rows}})}}) == sheet_readings);
}

TEST_CASE("faults of sheets name sheet and cell") {
    auto wrong = sheet_rows;
    wrong[4][3] = "beam lost";
    for (const std::string form : {"xlsx", "ods"}) {
        INFO(form);
        const std::string name = "x." + form;
        CHECK_THAT(words_of(mapping_of(rows), {{name, bytes_as(form, {{"Readings", wrong}})}}),
                   StartsWith(name + ": Readings!D5: found \"beam lost\"; expected a number with a decimal point in column \"Dev\""));
        CHECK_THAT(words_of(mapping_of(rows), {{name, bytes_as(form, {{"A", sheet_rows}, {"B", sheet_rows}})}}),
                   StartsWith(name + ": found 2 sheets; expected one sheet, or its name under \"sheet\" in the mapping: A, B"));
        CHECK_THAT(words_of(mapping_of(rows + R"(, "sheet": "C")"), {{name, bytes_as(form, {{"A", sheet_rows}})}}),
                   StartsWith(name + ": found no sheet \"C\"; expected one of the sheets: A"));
    }
}

TEST_CASE("words that the library passes over are told, and nothing is taken for missing") {
    auto lost = sheet_rows;
    lost[4][3] = "beam lost";
    CHECK_THAT(words_of(mapping_of(rows), {{"x.xlsx", xlsx_of({{"Readings", lost, /*inline_words=*/true}})}}),
               StartsWith("x.xlsx: found a spreadsheet that cannot be read (its words stand in the cells"));
}

TEST_CASE("what is no spreadsheet, or would fill the memory, is refused") {
    CHECK_THAT(words_of(mapping_of(rows), {{"x.xlsx", "no archive"}}), StartsWith("x.xlsx: found "));
    std::string bomb = xlsx_of({{"Readings", sheet_rows}});
    const std::size_t entry = bomb.find("PK\x01\x02");
    bomb[entry + 27] = '\x7f';  // 2 GiB, as the directory says
    CHECK_THAT(words_of(mapping_of(rows), {{"x.xlsx", bomb}}), StartsWith("x.xlsx: found a spreadsheet that unpacks to more "
                                                                          "than 512 MiB"));
    const std::string sound = xlsx_of({{"Readings", sheet_rows}});
    for (std::size_t size = 0; size < sound.size(); size += 97)
        CHECK_THAT(words_of(mapping_of(rows), {{"x.xlsx", sound.substr(0, size)}}), StartsWith("x.xlsx: found "));
}
