#include "support/hostile_pdf.hpp"
#include "unpack/open_file.hpp"

#include <catch2/catch.hpp>

#include <ctime>

using namespace wayfolio;
using namespace wayfolio::support;
using Catch::Matchers::Contains;

namespace {

constexpr auto* twice = "[/FlateDecode /FlateDecode]";
const std::string catalog = "<< /Type /Catalog /Pages 2 0 R >>";
const std::map<int, std::string> plain_objects{{1, catalog},
                                               {2, "<< /Type /Pages /Kids [3 0 R] /Count 1 >>"},
                                               {3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] >>"}};

/// How many pages the file has when it is opened and all of it has been read.
std::size_t pages_in(const std::string& pdf) {
    QPDF file;
    unpack::open_file(file, "x", pdf);
    file.getAllObjects();
    return file.getAllPages().size();
}

/// A catalog with an array of so many parts in an object stream, packed.
std::string with_packed_array(const std::string& part, int times) {
    const std::string text = "<< /Type /Catalog /Pages 2 0 R /X [" + repeated(part, times) + "] >>";
    return with_object_stream("10 0", text, 1, deflated("10 0\n" + text), "/FlateDecode");
}

}  // namespace

TEST_CASE("sound files with packed objects and references are opened") {
    CHECK(pages_in(pdf_of({})) == 1);
    CHECK(pages_in(packed_pdf_of(plain_objects, {})) == 1);
    CHECK(pages_in(with_object_stream("10 0 11 34", catalog + " (a\\)) [1 0 R <</a(b)/c<aB >>>]", 2)) == 1);
    CHECK(pages_in(with_packed_array("[]", 100'000)) == 1);
}

TEST_CASE("what libqpdf would unpack by itself, to any size, is told from before it sees the file") {
    const std::clock_t begun = std::clock();  // of the processor: the machine may have other work
    const std::string bomb = packed_twice(2'000'000'000);
    CHECK_THROWS_WITH(pages_in(packed_pdf_of(plain_objects, {}, bomb, twice)), Contains("unpack to more than"));
    CHECK_THROWS_WITH(pages_in(with_object_stream("10 0", catalog, 1, bomb, twice)), Contains("unpack to more than"));
    // Names may be written in figures, and words stand between comments.
    std::string written_otherwise = with_object_stream("10 0", catalog, 1, bomb, "[/Fl#61teDecode /#46l]");
    written_otherwise.replace(written_otherwise.find("5 0 obj\n"), 8, "5 0%\nobj%\n");
    CHECK_THROWS_WITH(pages_in(written_otherwise), Contains("unpack to more than"));
    // What its filters are cannot be known before it is opened.
    CHECK_THROWS_WITH(pages_in(with_object_stream("10 0", catalog, 1, bomb, "7 0 R")), Contains("/Filter"));
    CHECK_THROWS_WITH(pages_in(packed_pdf_of(plain_objects, {}, bomb, twice) + "trailer << /Encrypt 9 0 R >>"),
                      Contains("unpack to more than"));
    CHECK_THROWS_AS(pages_in(with_object_stream("10 0", catalog, 1, bomb, twice) + "trailer << /Encrypt 9 0 R >>"), unpack::Encrypted);
    CHECK_THROWS_WITH(pages_in(packed_pdf_of(plain_objects, {}, deflated(std::string(12'000'000, '\1')), "/FlateDecode")),
                      Contains("unpack to more than"));
    CHECK_THROWS_WITH(pages_in(packed_pdf_of(plain_objects, {}, deflated(std::string(800'000, '\1')), "/FlateDecode")),
                      Contains("name more than"));
    CHECK((std::clock() - begun) / CLOCKS_PER_SEC < 30);  // all of them together, with sanitizers
}

TEST_CASE("a file whose objects are too many, or lie in each other, is told from") {
    const std::clock_t begun = std::clock();
    CHECK_THROWS_WITH(pages_in(with_packed_array("[]", 1'000'000)), Contains("hold more than"));
    std::string same, inside, text;
    for (int i = 0; i < 3000; ++i) {
        same += std::to_string(10 + i) + " 0 ";
        inside += std::to_string(10 + i) + " " + std::to_string(text.size()) + " ";
        text += "(a";
    }
    CHECK_THROWS_WITH(pages_in(with_object_stream(same, "[" + repeated("0 ", 10'000) + "]", 3000)), Contains("told from each other"));
    CHECK_THROWS_WITH(pages_in(with_object_stream(inside, text + std::string(100'000, 'a'), 3000)), Contains("told from each other"));
    std::map<int, std::string> nested;
    for (int i = 100; i < 20'000; ++i) nested[i] = "(a";
    CHECK_THROWS_WITH(pages_in(pdf_of(nested)), Contains("lie in each other"));
    CHECK((std::clock() - begun) / CLOCKS_PER_SEC < 30);
}

TEST_CASE("objects are counted, and a place within one is found") {
    const auto told = [](const std::string& text, std::vector<std::size_t> starts) {
        try {
            return std::to_string(unpack::objects_in(text, std::move(starts)));
        } catch (const unpack::TooMuch&) {
            return std::string("refused");
        }
    };
    CHECK(told("", {}) == "0");
    CHECK(told("1 2.5 /a /a#20b (c\\(d) <0 aF> true [] << >>", {0}) == "9");
    CHECK(told("[1 0 R 2 0 R] R", {0, 14}) == "4");  // an array, two references, a word
    CHECK(told("[1 0 R R 0 R /a R]", {0}) == "7");
    CHECK(told("<</K[1(])]>> 7", {0, 12}) == "6");
    CHECK(told("<</K[1(])]>> 7", {12, 0, 13}) == "6");
    for (const std::size_t inside : {1U, 2U, 4U, 5U, 7U, 9U, 10U, 11U}) CHECK(told("<</K[1(])]>> 7", {0, inside}) == "refused");
    for (const std::string text : {"(a", "<a", "<ag>", "[)", "]", "[>>", "<<]", ">", "{", "% [", "(\\)"}) {
        CAPTURE(text);
        CHECK(told(text, {0}) == "refused");
    }
    CHECK(told("1 2", {0, 0}) == "refused");
}

TEST_CASE("what a stream unpacks to on the way counts, and so does how long it says that its rows are") {
    const auto unpacked = [](const std::string& bytes, const char* filter, const char* parameters) {
        return unpack::StreamUnpacker(1'000'000).unpacked(bytes, unpack::Handle::parse(filter), unpack::Handle::parse(parameters));
    };
    const std::string zeros = std::string("0 0 0 0 0 0 ") + std::string(100, 'x');
    CHECK(unpacked(zeros, "null", "null") == zeros);
    CHECK(unpacked(zeros, "[]", "null") == zeros);
    CHECK(unpacked(deflated(zeros), "/FlateDecode", "null") == zeros);
    CHECK(unpacked(deflated(deflated(zeros)), twice, "[null null]") == zeros);
    CHECK(unpacked("\3abcd\377a\200", "/RunLengthDecode", "null") == "abcdaa");
    CHECK(unpacked(deflated(std::string("\1\1\1\1", 4)), "/FlateDecode", "<< /Predictor 12 /Columns 3 >>") == "\1\2\3");
    // White space: nothing is left of it.
    CHECK_THROWS_AS(unpacked(packed_twice(2'000'000'000), "[/FlateDecode /FlateDecode /ASCIIHexDecode]", "null"), unpack::TooMuch);
    CHECK_THROWS_AS(unpacked(deflated("a"), "/FlateDecode", "<< /Predictor 12 /Columns 1000000000 >>"), unpack::TooMuch);
    CHECK_THROWS_AS(unpacked(deflated("a"), "/FlateDecode", "<< /Predictor 12 /Colors 1000000000 >>"), unpack::TooMuch);
    CHECK_THROWS_WITH(unpacked("no stream", "/FlateDecode", "null"), Contains("cannot be unpacked"));
    CHECK_THROWS_WITH(unpacked("a", "7", "null"), Contains("cannot be unpacked"));
}

TEST_CASE("a page is read only as far as its operators and operands can be held") {
    CHECK_NOTHROW(unpack::require_readable_content(repeated("0 0 m ", 300'000)));
    CHECK_THROWS_AS(unpack::require_readable_content("[" + repeated("0 ", 1'000'001) + "] TJ"), unpack::TooMuch);
    CHECK_THROWS_AS(unpack::require_readable_content("[" + repeated("[]", 500'001) + "] TJ"), unpack::TooMuch);
}
