#include "gather/exports/decimal.hpp"
#include "gather/exports/numbers.hpp"
#include "gather/exports/read_export.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using namespace wayfolio::gather;

namespace {

using Cells = std::vector<std::vector<std::string>>;

struct RowsRead {
    Cells rows;
    std::vector<std::uint32_t> lines;
    std::vector<std::string> faults;
};

/// The rows of bytes that come in pieces of `size`.
RowsRead rows_of(const std::string& bytes, const Dialect& dialect = {}, std::size_t size = std::string::npos) {
    const ExportFile file{"x.csv", "x.csv", [&](const std::function<void(std::string_view)>& take) {
                              for (std::size_t at = 0; at < bytes.size(); at += std::min(size, bytes.size()))
                                  take(std::string_view(bytes).substr(at, size));
                          }};
    ExportFaults faults("x.csv");
    RowsRead read;
    read_text_rows(file, dialect, faults, [&](const Row& row) {
        read.lines.push_back(row.line);
        auto& cells = read.rows.emplace_back();
        for (const Cell& cell : row.cells) cells.emplace_back(cell.text);
    });
    for (const auto& problem : faults.problems()) read.faults.push_back(input::to_text(problem));
    return read;
}

Dialect with_delimiter(char delimiter) { return {.delimiter = delimiter}; }

std::string number_text(std::string_view text, const Dialect& dialect = {}) {
    if (const auto number = number_in(text, dialect)) return number->text();
    return "no: " + why_no_number(text, dialect).hint;
}

}  // namespace

TEST_CASE("RFC 4180: rows and cells as section 2 says, rule by rule, in examples of our own") {
    SECTION("2.1 each record on a line of its own, ended by CRLF") {
        CHECK(rows_of("a,b\r\nc,d\r\n").rows == Cells{{"a", "b"}, {"c", "d"}});
    }
    SECTION("2.2 the last one may lack its line end") { CHECK(rows_of("a,b\r\nc,d").rows == Cells{{"a", "b"}, {"c", "d"}}); }
    SECTION("2.4 blanks are part of a cell") { CHECK(rows_of(" a , b\r\n").rows == Cells{{" a ", " b"}}); }
    SECTION("2.4 the last cell has no comma behind it: one there begins an empty cell") {
        CHECK(rows_of("a,\r\n,\r\n").rows == Cells{{"a", ""}, {"", ""}});
    }
    SECTION("2.5 any cell may stand in quotes") { CHECK(rows_of("\"a\",\"b\"\r\nc,\"\"\r\n").rows == Cells{{"a", "b"}, {"c", ""}}); }
    SECTION("2.5 a cell without quotes holds none") {
        CHECK(rows_of("a\"b,c\r\nd,e\r\n").faults ==
              std::vector<std::string>{"x.csv:1:2: found a quotation mark inside a cell without quotes; expected cells in "
                                       "quotes as a whole "
                                       "(say \"quote\": \"none\" where quotation marks are letters like any other)"});
        CHECK(rows_of("a\"b,c\r\nd,e\r\n").rows == Cells{{"d", "e"}});
    }
    SECTION("2.6 line ends and commas stand in quotes") {
        const RowsRead read = rows_of("a,\"b\r\nb\",\"c,c\"\r\nd,e,f\r\n");
        CHECK(read.rows == Cells{{"a", "b\r\nb", "c,c"}, {"d", "e", "f"}});
        CHECK(read.lines == std::vector<std::uint32_t>{1, 3});
    }
    SECTION("2.7 a quote in quotes is doubled") { CHECK(rows_of("\"a\"\"b\",\"\"\"\"\r\n").rows == Cells{{"a\"b", "\""}}); }
}

TEST_CASE("line ends of all kinds, also mixed, and quotes that are letters") {
    CHECK(rows_of("a,b\nc,d\re,f\r\ng").rows == Cells{{"a", "b"}, {"c", "d"}, {"e", "f"}, {"g"}});
    CHECK(rows_of("5\",6\"\n", {.quote = Dialect::none}).rows == Cells{{"5\"", "6\""}});
    CHECK(rows_of("").rows.empty());
    CHECK(rows_of("\n\n").lines == std::vector<std::uint32_t>{1, 2});
}

TEST_CASE("runs of blanks delimit as one, and none at the ends of a line") {
    CHECK(rows_of("  0   1.5\t\t2 \n\n250 \"a b\" 3\n", with_delimiter(Dialect::blanks)).rows ==
          Cells{{"0", "1.5", "2"}, {}, {"250", "a b", "3"}});
    CHECK(rows_of("a\tb\t\tc\n", with_delimiter('\t')).rows == Cells{{"a", "b", "", "c"}});
}

TEST_CASE("comment lines are passed over, and their quotes with them") {
    const RowsRead read = rows_of("# \"head\n  # more\r\na;b\n#\nc;d", {.delimiter = ';', .comment = "#"});
    CHECK(read.rows == Cells{{"a", "b"}, {"c", "d"}});
    CHECK(read.lines == std::vector<std::uint32_t>{3, 5});
    CHECK(read.faults.empty());
}

TEST_CASE("faults of quotes have their place, and the rows behind them are still read") {
    CHECK(rows_of("a,\"b\"c\nd,e\n").faults.front() ==
          "x.csv:1:6: found text after a closing quotation mark; expected a delimiter or the end of the line there (a quotation mark "
          "inside a cell in quotes is doubled)");
    CHECK(rows_of("a,\"b\"c\nd,e\n").rows == Cells{{"d", "e"}});
    CHECK(rows_of("a\nb,\"c\nd\n").faults ==
          std::vector<std::string>{"x.csv:2:3: found a cell in quotes that nothing closes; expected a closing quotation mark"});
    const RowsRead endless = rows_of("\"" + std::string(RowCutter::longest_row + 10, 'x'), {}, 65536);
    CHECK(endless.faults.size() == 1);
    CHECK_THAT(endless.faults.front(), Catch::Matchers::Contains("a row of more than 1048576 bytes"));
}

TEST_CASE("UTF-8, UTF-16 and Latin-1, with and without their marks") {
    const std::string degrees = "\u00b0,\u00b5\U0001F600\n";
    const Cells expected{{"\u00b0", "\u00b5\U0001F600"}};
    CHECK(rows_of(degrees).rows == expected);
    CHECK(rows_of("\xEF\xBB\xBF" + degrees).rows == expected);
    const std::string little("\xB0\0,\0\xB5\0\x3D\xD8\x00\xDE\n\0", 12), big("\0\xB0\0,\0\xB5\xD8\x3D\xDE\x00\0\n", 12);
    for (const std::size_t size : {std::size_t{1}, std::size_t{3}, std::string::npos}) {
        CHECK(rows_of("\xFF\xFE" + little, {}, size).rows == expected);
        CHECK(rows_of("\xFE\xFF" + big, {}, size).rows == expected);
        CHECK(rows_of(little, {.encoding = Encoding::Utf16}, size).rows == expected);
        CHECK(rows_of(big, {.encoding = Encoding::Utf16}, size).rows == expected);
        CHECK(rows_of("\xB0,\xB5\n", {.encoding = Encoding::Latin1}, size).rows == Cells{{"\u00b0", "\u00b5"}});
    }
}

TEST_CASE("bytes of another encoding are faults with line and column, and say what the mapping could say") {
    CHECK(rows_of("a,b\nc,\xB5\n").faults ==
          std::vector<std::string>{"x.csv:2:3: found the byte 0xB5; expected UTF-8 (say \"encoding\": \"latin-1\" in the "
                                   "mapping if that is "
                                   "how the file is written)"});
    CHECK_THAT(rows_of(std::string("a\0,\0", 4)).faults.front(), Catch::Matchers::Contains("UTF-16 without a byte-order mark"));
    CHECK_THAT(rows_of("\xFF\xFE"
                       "a",
                       {.encoding = Encoding::Latin1})
                   .faults.front(),
               Catch::Matchers::Contains("found the byte-order mark of UTF-16; expected Latin-1"));
    CHECK_THAT(rows_of(std::string("\xFF\xFE"
                                   "a\0b",
                                   5))
                   .faults.front(),
               Catch::Matchers::Contains("half a letter at the end"));
}

TEST_CASE("how a file is cut into pieces changes nothing") {
    const std::string bytes = "\xEF\xBB\xBF# n\u00e4me\r\nT,\"a \"\"\u00b5\"\" b\",\"x\r\ny\"\r\n1,2\r3,\"4\"\n\"u\"v\nw\"\n\n5,\"6";
    const Dialect dialect{.comment = "#"};
    const RowsRead whole = rows_of(bytes, dialect);
    REQUIRE(whole.rows.size() == 4);
    REQUIRE(whole.faults.size() == 3);
    for (std::size_t size = 1; size < bytes.size(); ++size) {
        const RowsRead pieces = rows_of(bytes, dialect, size);
        CHECK(pieces.rows == whole.rows);
        CHECK(pieces.lines == whole.lines);
        CHECK(pieces.faults == whole.faults);
    }
}

TEST_CASE("numbers are read as the dialect writes them, and keep their decimals") {
    const Dialect comma{.decimal_mark = ',', .thousands_mark = "."}, points{.thousands_mark = ","}, thin{.thousands_mark = "\u202f"};
    CHECK(number_text("1.50") == "1.50");
    CHECK(number_text("+.5") == "0.5");
    CHECK(number_text("-5.") == "-5");
    CHECK(number_text("\u22120.0014") == "-0.0014");
    CHECK(number_text("1.5e-3") == "0.0015");
    CHECK(number_text("1.5E+3") == "1500");
    CHECK(number_text("-0") == "0");
    CHECK(number_text("-0.00") == "0.00");
    CHECK(number_text("007") == "7");
    CHECK(number_text("1.234,5", comma) == "1234.5");
    CHECK(number_text("1,234,567.5", points) == "1234567.5");
    CHECK(number_text("1\u202f234", thin) == "1234");
    CHECK(number_text("0.12345678901234567890") == "0.12345678901234568");
}

TEST_CASE("what is no number says what it could be") {
    const Dialect comma{.decimal_mark = ','}, points{.thousands_mark = ","};
    CHECK(number_text("1,4") == "no: a decimal comma? say \"decimal_mark\": \",\" in the mapping if the whole file has it");
    CHECK(number_text("1.4", comma) == "no: a decimal point? say \"decimal_mark\": \".\" in the mapping if the whole file has it");
    CHECK(number_text("1,4", points) == "no: a decimal comma? say \"decimal_mark\": \",\" in the mapping if the whole file has it");
    CHECK(number_text("1'234.5") == "no: thousands marks? say \"thousands_mark\": \"'\" in the mapping");
    CHECK(number_text("1.4 um") == "no: a number alone: its unit belongs into the mapping");
    CHECK_THAT(number_text("nan"), Catch::Matchers::Contains("\"missing\""));
    for (const char* text : {"", "-", "+-1", "1-", "1.2.3", "1e", "1e999", "0x10", "1 2", ".", "e5", "inf"})
        CHECK_THAT(number_text(text), Catch::Matchers::StartsWith("no:"));
    for (const char* text : {"12,34", "1234,567", ",123", "1,23,456"})
        CHECK_THAT(number_text(text, points), Catch::Matchers::StartsWith("no:"));
}

TEST_CASE("differences and changes of unit are exact") {
    const auto decimal = [](std::string_view text) { return number_in(text, {}).value(); };
    CHECK(difference(decimal("250.0014"), decimal("250")).text() == "0.0014");
    CHECK(product(difference(decimal("250.0014"), decimal("250")), 1000).text() == "1.4");
    CHECK(product(decimal("0.001"), 3600).text() == "3.600");
    CHECK(product(decimal("1.5"), 0.001).text() == "0.0015");
    CHECK(difference(decimal("0.1"), decimal("0.1")).text() == "0.0");
    CHECK(decimal("1.50") == decimal("1.5"));
    CHECK_FALSE(decimal("1.50") == decimal("1.51"));
}

TEST_CASE("any double comes back from its text, and from the decimal that it is read as") {
    rc::check([](double value) {
        if (!std::isfinite(value) || std::abs(value) > 1e200 || (value != 0 && std::abs(value) < 1e-200)) return;
        const Decimal kept = decimal_of(value);
        RC_ASSERT(kept.value() == value);
        const auto again = number_in(kept.text(), {});
        RC_ASSERT(again.has_value());
        RC_ASSERT(again->value() == value);
    });
}

TEST_CASE("any cells come back from any delimiter when they are written by RFC 4180") {
    rc::check([] {
        const char delimiter = *rc::gen::element(',', ';', '\t', '|');
        const auto letter = rc::gen::element('a', '"', ',', ';', '\t', ' ', '\n', '\r', '1', '|');
        Cells rows;
        std::string text;
        const auto count = *rc::gen::inRange(1, 5);
        for (int row = 0; row < count; ++row) {
            auto& cells = rows.emplace_back();
            const auto width = *rc::gen::inRange(1, 4);
            for (int column = 0; column < width; ++column) {
                cells.push_back(*rc::gen::container<std::string>(letter));
                if (column > 0) text += delimiter;
                text += '"';
                for (const char one : cells.back()) text += one == '"' ? std::string("\"\"") : std::string(1, one);
                text += '"';
            }
            text += *rc::gen::element<std::string>("\r\n", "\n", "\r");
        }
        const RowsRead read = rows_of(text, with_delimiter(delimiter), *rc::gen::inRange<std::size_t>(1, 20));
        RC_ASSERT(read.faults.empty());
        RC_ASSERT(read.rows == rows);
    });
}
