#include "input/json/object_reader.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace wayfolio::input;

namespace {

/// Reads `text` with `read` and gives the faults as text.
template <class Read>
std::vector<std::string> faults_of(const std::string& text, Read read) {
    const Json json = read_json(text, "job.json");
    Faults faults("job.json", json);
    ObjectReader reader(json.root, faults);
    read(reader);
    std::vector<std::string> result;
    try {
        faults.reject_if_any();
    } catch (const InputRejected& rejected) {
        for (const Problem& problem : rejected.problems()) result.push_back(to_text(problem));
    }
    return result;
}

constexpr std::array<Word<int>, 2> colours{{{"red", 1}, {"green", 2}}};

}  // namespace

TEST_CASE("an unknown key is reported at the key, with the nearest known one") {
    const auto faults = faults_of("{\"unit\": \"um\",\n \"positoin\": 3}", [](ObjectReader& reader) {
        reader.text("unit");
        reader.number("position");
        reader.finish();
    });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0] == "job.json:2:2: /positoin: found the key \"positoin\"; expected one of: unit, position (did you mean \"position\"?)");
}

TEST_CASE("a number that no document may hold is told once, whatever its key asks for") {
    const auto faults = faults_of(R"({"a": 1e300, "b": 1e-300, "c": 1e999})", [](ObjectReader& reader) {
        constexpr NumberRule narrow{"a number from 1 to 2", [](double n) { return n >= 1 && n <= 2; }};
        for (const char* key : {"a", "b", "c"}) CHECK_FALSE(reader.number(key, narrow));
    });
    CHECK(faults.size() == 3);
}

TEST_CASE("keys of the user's own are passed over, internal remarks are checked") {
    const auto faults = faults_of(R"({"x-any": [1], "internal": {"remarks": ["r", 5], "x-cost": 1, "note": 2}})",
                                  [](ObjectReader& reader) { reader.finish(); });
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].find("/internal/remarks/1: found 5; expected a text") != std::string::npos);
    CHECK(faults[1].find("/internal/note") != std::string::npos);
}

TEST_CASE("a missing key is reported once, with its pointer, at its object") {
    const auto faults = faults_of("\n {}", [](ObjectReader& reader) {
        CHECK(reader.required_text("id", "an id").empty());
        CHECK_FALSE(reader.required_number("limit", zero_or_more));
    });
    REQUIRE(faults.size() == 2);
    CHECK(faults[0] == "job.json:2:2: /id: found no key \"id\"; expected an id");
    CHECK(faults[1] == "job.json:2:2: /limit: found no key \"limit\"; expected a number of 0 or more");
}

TEST_CASE("a wrong type is a fault and counts as absent; null says to leave the key out") {
    const auto faults = faults_of(R"({"a": 1, "b": "x", "c": null, "d": "blue", "e": -1})", [](ObjectReader& reader) {
        CHECK(reader.text("a").empty());
        CHECK_FALSE(reader.number("b"));
        CHECK_FALSE(reader.flag("c"));
        CHECK_FALSE(reader.choice("d", "a colour", colours));
        CHECK_FALSE(reader.number("e", zero_or_more));
    });
    REQUIRE(faults.size() == 5);
    CHECK(faults[2] == "job.json:1:25: /c: found null; expected true or false (omit the key if the value is not known)");
    CHECK(faults[3] == "job.json:1:36: /d: found \"blue\"; expected a colour: red, green");
}

TEST_CASE("a root that is no object is one fault, not one for each key it lacks") {
    const auto faults = faults_of("[]", [](ObjectReader& reader) {
        reader.required_text("id", "an id");
        reader.array("runs", "an array");
        reader.finish();
    });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0] == "job.json:1:1: found an empty array; expected an object");
}

TEST_CASE("whole numbers are whole however they are written, and 64-bit ones keep every digit") {
    const auto faults = faults_of(R"({"a": 2.0, "b": 2e3, "c": 18446744073709551615, "d": 2.5, "e": -1, "f": 18446744073709551616})",
                                  [](ObjectReader& reader) {
                                      constexpr std::uint64_t most = 18446744073709551615U;
                                      CHECK(reader.whole("a", 0, most) == 2U);
                                      CHECK(reader.whole("b", 0, most) == 2000U);
                                      CHECK(reader.whole("c", 0, most) == most);
                                      CHECK_FALSE(reader.whole("d", 0, most));
                                      CHECK_FALSE(reader.whole("e", 0, most));
                                      CHECK_FALSE(reader.whole("f", 0, most));
                                  });
    CHECK(faults.size() == 3);
}

TEST_CASE("of a thousand faults the first fifty of the file are told, in its order") {
    std::string text = "{";
    for (int place = 0; place < 2000; ++place) text += "\"k" + std::to_string(place) + "\": 0,\n";
    const auto faults = faults_of(text + "\"z\": 0}", [](ObjectReader& reader) { reader.finish(); });
    REQUIRE(faults.size() == InputRejected::cap);
    CHECK(faults.front().find("job.json:1:2: /k0:") == 0);
    CHECK(faults.back().find("job.json:50:1: /k49:") == 0);
}
