#include "document/reading_help.hpp"

#include <catch2/catch.hpp>

#include <rapidcheck.h>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace wayfolio;
using namespace wayfolio::document;

namespace {

std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

constexpr const char* trace_head = R"("error": "EXX", "unit": "um", "position_unit": "mm", "trace": {"file": "t.csv"})";

std::vector<TraceSample> trace_of(const std::string& csv) {
    return read_text(one_series(trace_head), {{"t.csv", csv}}).series[0].trace->samples;
}

std::string first_fault_of_trace(const std::string& csv) {
    const auto faults = faults_of(one_series(trace_head), {{"t.csv", csv}});
    return faults.empty() ? "none" : faults.front();
}

/// One small change to a text: a byte replaced, taken out or put in, or a stretch of it doubled or taken out.
void mutate(std::string& text, std::size_t kind, std::size_t at, std::size_t length, char byte) {
    at %= text.size() + 1;
    length = std::min(length, text.size() - at);
    switch (kind % 5) {
        case 0:
            text.insert(at, 1, byte);
            break;
        case 1:
            text.replace(at, std::min<std::size_t>(1, length), 1, byte);
            break;
        case 2:
            text.erase(at, std::min<std::size_t>(1, length));
            break;
        case 3:
            text.erase(at, length);
            break;
        case 4:
            text.insert(at, text.substr(at, length));
            break;
        default:
            break;
    }
}

}  // namespace

TEST_CASE("a misspelt unit is told with its place, the allowed ones and the nearest") {
    const auto faults = faults_of(
        "{\"format\": \"wayfolio-result\", \"version\": 1, \"series\": [\n  {\"id\": \"x\", \"error\": \"EXX\", \"unit\": \"inches\", "
        "\"position_unit\": \"mm\", \"stated\": {\"A\": 1}}]}");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0] ==
          "job.json:2:39: /series/0/unit: found \"inches\"; expected a unit of length: um, mm, in, uin (did you mean \"in\"?)");
}

TEST_CASE("an angle in arcseconds where degrees are asked for is told at the target, with the factor") {
    const auto faults = faults_of(one_series(R"("error": "ECC", "unit": "arcsec", "position_unit": "deg", "targets": [0, 648000, 1296000],
        "runs": [{"approach": "positive", "deviations": [0, 1, 2]}])"));
    REQUIRE(faults.size() == 2);
    CHECK(faults[1].find("/series/0/targets/2: found 1296000; expected a position in degrees, of at most 36 000 in size (100 turns) (3600 "
                         "arcsec are 1 deg)") != std::string::npos);
}

TEST_CASE("a reading that is the position read, in micrometres, is told with what a reading is") {
    const auto faults = faults_of(one_series(R"("error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0, 2000],
        "runs": [{"approach": "positive", "deviations": [0, 2000001.2]}])"));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("/series/0/runs/0/deviations/1: found 2000001.2; expected a deviation in um, of at most 1 000 000 in size (1 m) "
                         "(a reading is the deviation, actual less target, not the position that was read)") != std::string::npos);
}

TEST_CASE("every unit has its bounds for positions and readings") {
    const auto refused = [](const std::string& error, const std::string& unit, const std::string& position_unit, const std::string& target,
                            const std::string& reading) {
        return faults_of(one_series("\"error\": \"" + error + "\", \"unit\": \"" + unit + "\", \"position_unit\": \"" + position_unit +
                                    "\", \"targets\": [0, " + target + "], \"runs\": [{\"approach\": \"positive\", \"deviations\": [0, " +
                                    reading + "]}]"))
            .size();
    };
    struct Bound {
        const char *error, *unit, *inside, *outside;
    };
    for (const Bound& bound : {Bound{"EXX", "um", "1000000", "-1000001"},
                               {"EXX", "mm", "1000", "1001"},
                               {"EXX", "in", "-40", "41"},
                               {"EXX", "uin", "4e7", "4.1e7"},
                               {"EAX", "urad", "6.3e8", "6.4e8"},
                               {"EAX", "arcsec", "129600000", "1.3e8"},
                               {"EAX", "deg", "36000", "-36001"},
                               {"EAX", "um/m", "1e6", "1.1e6"}}) {
        CAPTURE(bound.unit);
        CHECK(refused(bound.error, bound.unit, "mm", "100", bound.inside) == 0);
        CHECK(refused(bound.error, bound.unit, "mm", "100", bound.outside) == 1);
    }
    CHECK(refused("EXX", "um", "mm", "-1000000", "1") == 0);
    CHECK(refused("EXX", "um", "mm", "-1000001", "1") == 1);
    CHECK(refused("EXX", "um", "in", "40000", "1") == 0);
    CHECK(refused("EXX", "um", "in", "40001", "1") == 1);
    CHECK(refused("ECC", "deg", "deg", "36000", "1") == 0);
    CHECK(refused("ECC", "deg", "deg", "36001", "1") == 1);
}

TEST_CASE("a trace file is held to the same bounds as its series") {
    CHECK(first_fault_of_trace("0,1\n1e7,2\n") ==
          "t.csv:2:1: found 10000000; expected a position in mm, of at most 1 000 000 in size (1 km)");
    CHECK(first_fault_of_trace("0,1\n1,2e6\n") ==
          "t.csv:2:1: found 2000000; expected a deviation in um, of at most 1 000 000 in size (1 m)");
}

TEST_CASE("an object that was written as a number is asked for by its keys") {
    const auto faults = faults_of(R"({"format": "wayfolio-result", "version": 1,
        "machine": {"axes": [{"name": "X", "expansion_um_per_m_K": 1.15e-05}]},
        "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "stated": {"A": 1}}]})");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("found 1.15e-05; expected an object: value (as 11.5, in um/(m K)), expanded_uncertainty, coverage_factor") !=
          std::string::npos);
}

TEST_CASE("lists hold several times what the largest job has, and one more item is told at the list") {
    const auto with = [](const std::string& members, std::size_t count, const std::string& item, const std::string& end) {
        std::string items;
        for (std::size_t i = 0; i < count; ++i) items += (i > 0 ? "," : "") + item;
        return faults_of(R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "x", "error": "EXX", "unit": "um",
            "position_unit": "mm", "stated": {"A": 1}}], )" +
                         members + items + end + "}");
    };
    struct List {
        const char *members, *item, *end, *pointer;
        std::size_t most;
    };
    for (const List& list :
         {List{R"("job": {"people": [)", R"({"name": "N."})", "]}", "/job/people: ", 50},
          {R"("job": {"remarks": [)", R"("r")", "]}", "/job/remarks: ", 100},
          {R"("job": {"customer": {"address": [)", R"("a")", "]}}", "/job/customer/address: ", 20},
          {R"("setup": {"checks": [)", R"({"name": "c"})", "]}", "/setup/checks: ", 500},
          {R"("setup": {"measurement_lines": [)", R"({"axis": "X"})", "]}", "/setup/measurement_lines: ", 500},
          {R"("uncertainty": {"contributors": [)", R"({"name": "c", "applies_to": ["EXX"], "standard": 1, "unit": "um"})", "]}",
           "/uncertainty/contributors: ", 100},
          {R"("uncertainty": {"stated": [)", R"({"series": "x", "parameter": "A", "expanded": 1, "unit": "um"})", "]}",
           "/uncertainty/stated: ", 1000},
          {R"("drift": [)", R"({"axis": "X", "quantity": "EXX", "samples": []})", "]", "/drift: ", 100},
          {R"("compensation": [)", R"({"axis": "X", "series": "x", "point_interval_mm": 10})", "]", "/compensation: ", 100},
          {R"("evaluation": {"agreed": [)", R"("a")", "]}", "/evaluation/agreed: ", 100}}) {
        CAPTURE(list.pointer);
        CHECK(with(list.members, list.most, list.item, list.end).empty());
        const auto faults = with(list.members, list.most + 1, list.item, list.end);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].find(list.pointer) != std::string::npos);
        const std::string found = std::to_string(list.most + 1);
        CHECK(faults[0].ends_with("found an array of " + found + "; expected at most " + std::to_string(list.most)));
    }
}

TEST_CASE("a machine is in at most twenty states, a document holds at most three hundred series") {
    const auto series = [](std::size_t count, std::size_t states) {
        std::string text = R"({"format": "wayfolio-result", "version": 1, "series": [)";
        for (std::size_t i = 0; i < count; ++i)
            text += (i > 0 ? "," : "") + (R"({"id": "x)" + std::to_string(i)) + R"(", "state": "s)" + std::to_string(i % states) +
                    R"(", "error": "EXX", "unit": "um", "position_unit": "mm", "stated": {"A": 1}})";
        return faults_of(text + "]}");
    };
    CHECK(series(300, 20).empty());
    REQUIRE(series(301, 20).size() == 1);
    CHECK(series(301, 20)[0].find("/series: found an array of 301; expected at most 300") != std::string::npos);
    REQUIRE(series(22, 22).size() == 2);
    CHECK(series(22, 22)[0].find("/series/20/state: found \"s20\"; expected one of at most 20 states of the machine in one document") !=
          std::string::npos);
}

TEST_CASE("all faults come at once, in the order of the file") {
    const auto faults = faults_of(R"({"series": [{"id": "x", "error": "EXX", "unit": "urad", "position_unit": "mm", "targets": [0, 0],
        "runs": [{"approach": "up", "deviations": [1]}]}], "evaluation": {"hints": 1}, "version": 1, "format": "other"})");
    REQUIRE(faults.size() == 6);
    CHECK(faults[0].find("/series/0/unit") != std::string::npos);
    CHECK(faults[1].find("/series/0/targets/1") != std::string::npos);
    CHECK(faults[2].find("/series/0/runs/0/approach") != std::string::npos);
    CHECK(faults[3].find("/series/0/runs/0/deviations: found an array of 1; expected one reading for each of the 2 targets") !=
          std::string::npos);
    CHECK(faults[4].find("/evaluation/hints") != std::string::npos);
    CHECK(faults[5].find("/format") != std::string::npos);
}

TEST_CASE("a document of a newer version says so and nothing else") {
    const auto faults = faults_of(R"({"format": "wayfolio-result", "version": 2, "series": "new shape", "novelty": 1})");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0] == "job.json:1:42: /version: found 2; expected 1 (the document was made for a newer wayfolio)");
}

TEST_CASE("a trace file may have a header and any of four separators") {
    for (const char* csv : {"position,value\n0,1.5\n10,-2\n", "0;1.5\r\n10;-2\r\n", "pos\tdev\n0\t1.5\n10\t-2",
                            "\xEF\xBB\xBF"
                            "0 1.5\n\n10 , -2\n",
                            "+0 ; 1.5\n1e1;-2.0"}) {
        const auto samples = trace_of(csv);
        REQUIRE(samples.size() == 2);
        CHECK(samples[0].value.in(units::micrometre) == 1.5);
        CHECK(samples[1].position.in(units::position_millimetre) == 10);
        CHECK(samples[1].value.in(units::micrometre) == -2);
    }
}

TEST_CASE("a fault in a trace file names that file and its line") {
    CHECK(first_fault_of_trace("0,1\n1;x\n") ==
          "t.csv:2:3: found \"x\"; expected a value after the position: a number with a decimal point");
    CHECK(first_fault_of_trace("0;1,5\n") == "t.csv:1:4: found \",5\"; expected two columns, position and value, with decimal points");
    CHECK(first_fault_of_trace("p;v\nq;w\n") == "t.csv:2:1: found \"q;w\"; expected a position: a number with a decimal point");
    CHECK(first_fault_of_trace("0,nan\n").find("t.csv:1:3:") == 0);
    CHECK(first_fault_of_trace("0,-inf\n").find("t.csv:1:3:") == 0);
    CHECK(first_fault_of_trace("0,1e999\n").find("t.csv:1:3:") == 0);
    CHECK(first_fault_of_trace("0\n").find("t.csv:1:2:") == 0);
    CHECK(first_fault_of_trace("position,value\n") == "t.csv:1:1: found no samples; expected two columns, position and value");
    CHECK(first_fault_of_trace(std::string("0\0,\0", 4)) == "t.csv:1:1: found UTF-16; expected UTF-8");
}

TEST_CASE("100 000 samples in a file are held") {
    std::string csv;
    for (int place = 0; place < 100'000; ++place) csv += std::to_string(place) + ",0.5\n";
    CHECK(trace_of(csv).size() == 100'000);
}

TEST_CASE("a side file that is missing is a fault of the document, where it is named") {
    const auto faults = faults_of(one_series(trace_head));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("job.json:1:") == 0);
    CHECK(faults[0].find("/series/0/trace/file: found \"t.csv\"") != std::string::npos);
}

TEST_CASE("a logo is an SVG or PNG, as a file or a data: URI") {
    const auto with_logo = [](const std::string& logo) {
        return R"({"job": {"laboratory": {"logo": ")" + logo +
               R"("}}, "format": "wayfolio-result", "version": 1, "series": [{"id": "x", "error": "EXX",
            "unit": "um", "position_unit": "mm", "stated": {"A": 1}}]})";
    };
    CHECK(faults_of(with_logo("data:image/png;base64,iVBORw0KGgo=")).empty());
    CHECK(faults_of(with_logo("data:image/png;base64,iVBORw0KGgo")).size() == 1);
    CHECK(faults_of(with_logo("l.svg"), {{"l.svg", "<?xml version=\"1.0\"?>\n<svg/>"}}).empty());
    CHECK(faults_of(with_logo("l.png"), {{"l.png", "\x89PNG\r\n\x1a\n..."}}).empty());
    CHECK(faults_of(with_logo("l.png"), {{"l.png", "GIF89a"}}).size() == 1);
}

TEST_CASE("no change to the bytes of a good document crashes the reader; what it refuses it can place") {
    const std::filesystem::path folder = std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "tests/document/good";
    const SideFiles files{{"logo.svg", bytes_of(folder / "logo.svg")}, {"trace.csv", bytes_of(folder / "trace.csv")}};
    const std::string good = bytes_of(folder / "everything.json");
    REQUIRE(faults_of(good, files).empty());
    CHECK(rc::check("mutated documents", [&] {
        std::string text = good;
        const int changes = *rc::gen::inRange(1, 4);
        for (int change = 0; change < changes; ++change)
            mutate(text, *rc::gen::inRange<std::size_t>(0, 5), *rc::gen::inRange<std::size_t>(0, good.size()),
                   *rc::gen::inRange<std::size_t>(0, 40),
                   *rc::gen::oneOf(rc::gen::arbitrary<char>(), rc::gen::elementOf(std::string("{}[]\",:0123456789.-eE"))));
        try {
            const Document document = read_text(text, files);
            RC_ASSERT(document.bytes == text);
        } catch (const input::InputRejected& rejected) {
            RC_ASSERT(!rejected.problems().empty());
            for (const auto& problem : rejected.problems())
                RC_ASSERT(problem.place.line > 0 && problem.place.column > 0 && !problem.expected.empty());
        }
    }));
}

TEST_CASE("a planned series stands apart from those with readings, and what needs it is told to wait") {
    const std::string planned =
        R"("error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0], "runs": [{"approach": "positive", "deviations": [1]}]},
  {"id": "y", "error": "EYY", "unit": "um", "position_unit": "mm", "targets": [0, 5], "plan": {"positive_runs": 5, "seed": 7})";
    const Document document = read_text(one_series(planned));
    CHECK(document.series.size() == 1);
    REQUIRE(document.planned.size() == 1);
    CHECK(document.planned[0].id == "y");
    CHECK(document.planned[0].plan->runs.positive == 5);
    CHECK(document.planned[0].plan->seed == 7);
    std::string asks = one_series(planned);
    asks.insert(asks.size() - 1, R"(, "uncertainty": {"stated": [{"series": "y", "parameter": "A", "expanded": 1, "unit": "um"}]})");
    const auto faults = faults_of(asks);
    REQUIRE(faults.size() == 1);
    CHECK_THAT(faults[0],
               Catch::Matchers::Contains("/uncertainty/stated/0/series: found \"y\"; expected the id of a series with readings: x "
                                         "(it is planned and has no readings yet: take out what needs it until it has some)"));
}
