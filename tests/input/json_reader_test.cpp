#include "input/json/json.hpp"
#include "input/read_file.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <rapidcheck.h>

#include <string>

using namespace wayfolio::input;

namespace {

/// The first fault of a text that must be refused.
Problem fault_of(std::string_view text) {
    try {
        const Json json = read_json(text, "job.json");
        REQUIRE_FALSE(json.problems.empty());
        return json.problems.front();
    } catch (const InputRejected& rejected) {
        return rejected.problems().front();
    }
}

void check_place(const Problem& problem, std::size_t line, std::size_t column, const std::string& pointer) {
    CHECK(problem.place.line == line);
    CHECK(problem.place.column == column);
    CHECK(problem.place.pointer == pointer);
}

/// Whether an independent reader sees the same tree.
bool same(const Value& ours, const nlohmann::json& theirs) {
    switch (ours.kind) {
        case JsonKind::Null: return theirs.is_null();
        case JsonKind::Boolean: return theirs == ours.boolean;
        case JsonKind::Number: return theirs.is_number() && theirs.get<double>() == ours.number;
        case JsonKind::String: return theirs == std::string(ours.text);
        case JsonKind::Array: break;
        case JsonKind::Object: break;
    }
    if (ours.items.size() != theirs.size() || theirs.is_object() != ours.is(JsonKind::Object)) return false;
    for (std::size_t place = 0; place < ours.items.size(); ++place) {
        const Value& item = ours.items[place];
        if (!same(item, ours.is(JsonKind::Object) ? theirs.at(std::string(item.key)) : theirs.at(place))) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("every value and key knows its line and column") {
    const std::string text = "{\n  \"a\": [1, -2.50],\n  \"b\": {\"c\": \"x\\u00e9\"}\n}";
    const Json json = read_json(text, "job.json");
    const Value& a = *json.root.member("a");
    CHECK(a.key_line == 2);
    CHECK(a.key_column == 3);
    CHECK(a.column == 8);
    CHECK(a.items[1].text == "-2.50");
    CHECK(a.items[1].number == -2.5);
    CHECK(a.items[1].column == 12);
    const Value& c = *json.root.member("b")->member("c");
    CHECK(c.text == "x\xC3\xA9");
    CHECK(c.line == 3);
    CHECK(pointer_of(json.root, c) == "/b/c");
    CHECK(pointer_of(json.root, a.items[1]) == "/a/1");
}

TEST_CASE("a pointer escapes tildes and slashes") {
    const Json json = read_json(R"({"a/b~c": [[7]]})", "job.json");
    CHECK(pointer_of(json.root, json.root.items[0].items[0].items[0]) == "/a~1b~0c/0/0");
}

TEST_CASE("a byte-order mark is passed over and does not move the columns") {
    const std::string text = "\xEF\xBB\xBF[1]";
    CHECK(read_json(text, "job.json").root.items[0].column == 2);
}

TEST_CASE("UTF-16 is refused with a hint, in both byte orders and with or without its mark") {
    for (const std::string& text :
         {std::string("\xFF\xFE{\0", 4), std::string("\xFE\xFF\0{", 4), std::string("{\0\"\0", 4), std::string("\0{\0\"", 4)}) {
        CHECK(fault_of(text).found == "UTF-16");
        CHECK(fault_of(text).hint == "save the file as UTF-8");
    }
}

TEST_CASE("bytes that are no UTF-8 are refused where they stand") {
    check_place(fault_of("{\n \"a\": \"\xE9\"}"), 2, 8, "");
    CHECK(fault_of("\"\xC0\xAF\"").expected == "UTF-8");          // overlong
    CHECK(fault_of("\"\xED\xA0\x80\"").expected == "UTF-8");      // surrogate
    CHECK(fault_of("\"\xF4\x90\x80\x80\"").expected == "UTF-8");  // beyond U+10FFFF
    CHECK(fault_of("\"12345678\xE2\x82\"").place.column == 10);   // cut off, after eight plain bytes
}

TEST_CASE("a file beyond the size limit is refused unread") {
    const std::string text(largest_file + 1, ' ');
    CHECK(fault_of(text).found == "more than 67108864 bytes");
}

TEST_CASE("64 levels are read, 65 are refused where they begin") {
    CHECK_NOTHROW(read_json(std::string(64, '[') + std::string(64, ']'), "job.json"));
    CHECK(fault_of(std::string(65, '[')).place.column == 65);
    CHECK(fault_of(std::string(5'000'000, '[')).found == "more than 64 levels of nesting");
}

TEST_CASE("too many values and too many keys are refused") {
    std::string text = "[";
    for (std::size_t count = 0; count < JsonLimits::values; ++count) text += "0,";
    CHECK(fault_of(text + "0]").found == "more than 3000000 values");
    std::string keys = "{";
    for (std::size_t count = 0; count <= JsonLimits::members; ++count) keys += "\"" + std::to_string(count) + "\":0,";
    CHECK(fault_of(keys + "\"z\":0}").found == "more than 10000 keys in one object");
}

TEST_CASE("a doubled key is reported at its second place") {
    const Problem fault = fault_of("{\"a\": {\"k\": 1,\n \"k\": 2}}");
    check_place(fault, 2, 2, "/a/k");
    CHECK(fault.hint == "it is already at line 1");
    CHECK(fault_of("{\"k\": 1, \"\\u006b\": 2}").place.pointer == "/k");  // the same key, written with an escape
}

TEST_CASE("nothing may follow the end of the document, not even NUL") {
    check_place(fault_of("{} x"), 1, 4, "");
    CHECK(fault_of(std::string("{ }\0rubbish", 11)).found == "a NUL byte");
    CHECK(fault_of("{ }}").expected == "nothing after the end of the document");
}

TEST_CASE("numbers that no double can hold and overlong numbers are refused, and the reading goes on") {
    const Json json = read_json("[1e400, 0.1234567890123456789012345678901234567890, 1e-400, 3]", "job.json");
    REQUIRE(json.problems.size() == 3);
    check_place(json.problems[0], 1, 2, "/0");
    check_place(json.problems[1], 1, 9, "/1");
    CHECK(json.problems[1].found == "a number of 42 characters");
    CHECK(json.root.items[3].number == 3);
}

TEST_CASE("what JSON does not know is refused with a hint") {
    CHECK(fault_of("[1,]").hint == "remove the comma before it");
    CHECK(fault_of("{\"a\":1,}").hint == "remove the comma before it");
    CHECK(fault_of("[NaN]").hint == "JSON has no NaN or infinity; write null for a missing reading");
    CHECK(fault_of("[-Infinity]").hint == "JSON has no NaN or infinity; write null for a missing reading");
    for (const char* number : {"[01]", "[+1]", "[.5]", "[1.]", "[1e]", "[0x10]", "[1,5e]"})
        CHECK(fault_of(number).hint == "write numbers as -12.5 or 1e-3: decimal point, no plus sign, no leading zeros");
    CHECK(fault_of("[1 // one\n]").hint == "JSON has no comments");
    CHECK(fault_of("{'a':1}").hint == "use double quotes");
    CHECK(fault_of("[\"a\nb\"]").hint == "write a line break as \\n");
    CHECK(fault_of("[\"a").found == "a text without an end");
    CHECK(fault_of("[\"\\x\"]").found == "an unknown escape");
    CHECK(fault_of("[\"\\ud800x\"]").found == "half of a surrogate pair");
    CHECK(fault_of("[\"\\u0000\"]").found == "the character U+0000");
    CHECK(fault_of(" \n").found == "an empty file");
    CHECK(fault_of("[tru]").expected == "a value");
}

TEST_CASE("escapes are decoded, surrogate pairs too") {
    const Json json = read_json(R"(["\"\\\/\b\f\n\r\t\u00b5\ud83d\ude00"])", "job.json");
    CHECK(json.root.items[0].text == "\"\\/\b\f\n\r\t\xC2\xB5\xF0\x9F\x98\x80");
}

TEST_CASE("a text that commands a terminal or turns the direction of writing is refused, and the reading goes on") {
    for (const char* escape : {"\\u001b", "\\u0007", "\\u007f", "\\u0085", "\\u200e", "\\u202e", "\\u2066", "\\u2069"}) {
        const Json json = read_json("[\"a" + std::string(escape) + "b\", 1]", "job.json");
        REQUIRE(json.problems.size() == 1);
        check_place(json.problems[0], 1, 2, "/0");
        CHECK(json.root.items[1].number == 1);
    }
    CHECK(read_json(R"(["\u202e"])", "job.json").problems[0].found == "a text with the character U+202E");
    CHECK(read_json(R"(["a\tb\r\nc\u00a0\u2028\u202f\u2070\u00e9"])", "job.json").problems.empty());
}

TEST_CASE("numbers beyond any measurement are refused: what is computed from them would not be finite") {
    CHECK(read_json("[1e20, -1e20]", "job.json").problems.empty());
    const Json json = read_json("[1, -1.1e20]", "job.json");
    REQUIRE(json.problems.size() == 1);
    check_place(json.problems[0], 1, 5, "/1");
    CHECK(json.problems[0].expected == "a number of at most 1e20 in size");
}

TEST_CASE("numbers that are nothing but not 0 are refused: their quotients would not be finite") {
    CHECK(read_json("[1e-30, -1e-30, 0, 0.0, -0.0, 1.4e-17]", "job.json").problems.empty());
    const Json json = read_json("[0, 1e-307, 5e-324]", "job.json");
    REQUIRE(json.problems.size() == 2);
    check_place(json.problems[0], 1, 5, "/1");
    CHECK(json.problems[0].expected == "0, or a number of at least 1e-30 in size");
    CHECK(json.problems[0].hint == "no measured value is smaller; write 0");
}

TEST_CASE("typographic quotation marks are named as such, where they stand") {
    const std::string hint = "these are typographic quotation marks; JSON wants the plain \"";
    // In place of an opening mark, of a closing one in a line, of a closing one before a line end, and at the end of the file.
    CHECK(fault_of("{\"a\": 1, \u201cb\u201d: 2}").hint == hint);
    CHECK(fault_of("{\"a\": \u201eum\u201c}").hint == hint);
    CHECK(fault_of("{\"a\": \"um\u201d, \"b\": 1}").hint == hint);
    CHECK(fault_of("{\"a\": \"um\u201d\n}").hint == hint);
    CHECK(fault_of("{\"a\": \"um\u201d}").hint == hint);
    CHECK(fault_of("{\"a\": \u00abum\u00bb}").hint == hint);
    // The pointer is that of the object, not of the key before.
    check_place(fault_of("{\"a\": 1, \u201cb\u201d: 2}"), 1, 10, "");
    CHECK(read_json("{\"a\": \"the \u201cold\u201d scale\"}", "job.json").problems.empty());
    CHECK(fault_of("{\"a\": \"it\u2019s\" 1}").hint.empty());
}

TEST_CASE("a value on one line keeps order and texts, and spells a number without zeros at its end") {
    const std::string text = R"({"b": [1, 7.10, 1e2, -0.50, 0, 3.0, 1e-9], "a/\"": "x\n", "c": {}, "d": [true, null]})";
    const Json json = read_json(text, "job.json");
    CHECK(compact(json.root) == R"({"b":[1,7.1,100.0,-0.5,0,3.0,1e-9],"a/\"":"x\n","c":{},"d":[true,null]})");
}

TEST_CASE("any number is the nearest double to its text, and a negative zero stays one") {
    CHECK(rc::check("numbers of some letters", [] {
        const auto digit = rc::gen::elementOf(std::string("0123456789"));
        const auto digits = rc::gen::nonEmpty(rc::gen::resize(18, rc::gen::container<std::string>(digit)));
        const auto whole = *rc::gen::inRange<std::uint64_t>(0, 99'999'999'999'999);
        std::string text = (*rc::gen::arbitrary<bool>() ? "-" : "") + std::to_string(whole);
        if (*rc::gen::arbitrary<bool>()) text += "." + *digits;
        if (*rc::gen::inRange(0, 4) == 0) text += "e" + std::to_string(*rc::gen::inRange(-9, 3));
        const std::string list = "[" + text + "]";
        const Json json = read_json(list, "job.json");
        if (!json.problems.empty()) return;  // more letters than a number may have
        RC_ASSERT(json.root.items[0].number == std::strtod(text.c_str(), nullptr));
        RC_ASSERT(json.root.items[0].text == text);
    }));
    const Json zeros = read_json("[0, -0, 0.00, -0.0, 999999999999999, 99999999999999.9, 0.00000000000001, 1234567890123456]", "job.json");
    const double expected[] = {0, -0.0, 0, -0.0, 999999999999999, 99999999999999.9, 1e-14, 1234567890123456};
    for (std::size_t i = 0; i < std::size(expected); ++i) {
        CHECK(zeros.root.items[i].number == expected[i]);
        CHECK(std::signbit(zeros.root.items[i].number) == std::signbit(expected[i]));
    }
}

TEST_CASE("whatever is accepted is read as an independent reader reads it") {
    const auto letters = rc::gen::elementOf(std::string("{}[]\",:\\ .-+eEu0123456789truefalsn\n\t\xC3\xA9"));
    CHECK(rc::check("random texts", [&] {
        const std::string text = *rc::gen::container<std::string>(letters);
        try {
            const Json json = read_json(text, "job.json");
            if (json.problems.empty()) RC_ASSERT(same(json.root, nlohmann::json::parse(text)));
        } catch (const InputRejected& rejected) {
            RC_ASSERT(!rejected.problems().empty());
        }
    }));
    const std::string document = R"({"a": [1, -2.5e-3, 0, -0, 1E+2, true, false, null], "b": {"c": "x\n\u00b5", "": {}}, "d": []})";
    CHECK(same(read_json(document, "job.json").root, nlohmann::json::parse(document)));
}
