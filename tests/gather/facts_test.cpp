#include "document/facts.hpp"
#include "gather/gathering.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;
using Catch::Matchers::Contains;

namespace {

const Files two_readings{{"x.csv", "Target,Dir,Run,Dev\n0,+,1,0.1\n5,+,1,0.2\n"}};
constexpr std::string_view facts_head = R"({"format": "wayfolio-facts", "version": 1, )";

FactsFile facts_of_bytes(const std::string& name, const std::string& members) {
    const auto nothing = [](const std::string& wanted) -> std::string {
        if (wanted == "logo.svg") return "<svg/>";
        throw input::InputMissing(wanted, "is not there");
    };
    return {.name = name, .path = "facts/" + name, .bytes = std::string(facts_head) + members + "}", .read_side_file = nothing};
}

/// A document of one series of EXX, or the faults, one a line.
struct FactsCase {
    std::vector<FactsFile> facts;
    std::string into{};
    std::string series{};  ///< more members of the series in the mapping

    [[nodiscard]] Gathered gathered() const {
        const std::string mapping = mapping_of(rows, series);
        GatherRequest request{.mapping = mapping, .mapping_file = "m.json", .exports = exports_of(two_readings), .facts = facts};
        if (!into.empty()) request.into = Existing{into, "job.json"};
        return gather::gather(request);
    }
    [[nodiscard]] Node document() const { return document_of(gathered()); }
    [[nodiscard]] std::string faults() const {
        try {
            return "none: " + gathered().document;
        } catch (const input::InputRejected& rejected) { return rejected.what(); }
    }
};

std::string text_of(const Node& node) { return written(node).substr(0, written(node).size() - 1); }

std::string text_of(const Node& document, std::initializer_list<std::string_view> keys) {
    const Node* at = &document;
    for (const std::string_view key : keys) at = at == nullptr ? nullptr : at->member(key);
    return at == nullptr ? "" : text_of(*at);
}

const std::string laser = R"("instruments": [{"id": "laser", "serial": "L-1", "due": "2027-01-13"}])";

}  // namespace

TEST_CASE("facts of several files are one document: objects by key, lists by what names their items, each fact once") {
    const Node document =
        FactsCase{.facts = {facts_of_bytes("lab.json", R"("job": {"laboratory": {"name": "Lab"}, "people": [{"role": "a", "name": "P"}],
                                               "remarks": ["one"]}, "instruments": [{"id": "laser", "serial": "L-1"}])"),
                            facts_of_bytes("kit.json", R"("job": {"laboratory": {"contact": "office"}, "remarks": ["one", "two"]},
                               "instruments": [{"id": "air", "serial": "S-1"}, {"id": "laser", "due": "2027-01-13", "serial": "L-1"}])")},
                  .into = R"({"format": "wayfolio-result", "version": 1, "job": {"number": "K", "people": [{"role": "b", "name": "P"}]}})"}
            .document();
    CHECK(text_of(document, {"job", "laboratory"}) == R"({"name": "Lab", "contact": "office"})");
    CHECK(text_of(document, {"job", "people"}) == R"([{"role": "b", "name": "P"}, {"role": "a", "name": "P"}])");
    CHECK(text_of(document, {"job", "remarks"}) == R"(["one", "two"])");
    CHECK(text_of(document, {"instruments"}) ==
          R"([{"id": "laser", "serial": "L-1", "due": "2027-01-13"}, {"id": "air", "serial": "S-1"}])");
    std::vector<std::string> keys;
    for (const Node& member : document.items) keys.push_back(member.key);
    CHECK(keys == std::vector<std::string>{"format", "version", "job", "instruments", "series", "facts"});
}

TEST_CASE("what went in is named with its digest, and counted; the same again says nothing new") {
    const FactsCase once{.facts = {facts_of_bytes("kit.json", laser)}};
    const Gathered first = once.gathered();
    CHECK(text_of(document_of(first), {"facts"}) ==
          fmt::format("[{{\"file\": \"kit.json\", \"sha256\": \"{}\"}}]", first.account.facts.at(0).sha256));
    CHECK_THAT(account_text(first.account), Contains("1 file of facts:\n  kit.json: 3 facts taken, 0 there already, SHA-256 "));
    FactsCase again = once;
    again.into = first.document;
    again.into.replace(again.into.find("\"runs\""), 6, "\"x-was\"");
    const Gathered second = again.gathered();
    CHECK(second.account.facts.at(0).taken == 0);
    CHECK(second.account.facts.at(0).there == 3);
    CHECK(text_of(document_of(second), {"facts"}) == text_of(document_of(first), {"facts"}));
}

TEST_CASE("another value for the same fact is a fault that names both places, whichever two of facts, document and mapping they are") {
    const FactsFile kit = facts_of_bytes("kit.json", laser);
    const FactsFile other = facts_of_bytes("spare.json", "\n \"instruments\": [{\"id\": \"laser\",\n  \"serial\": \"L-2\"}]");
    CHECK(FactsCase{.facts = {kit, other}}.faults() ==
          "facts/spare.json:3:13: /instruments/0/serial: found \"L-2\"; expected the same as at facts/kit.json:1:86: \"L-1\" (a fact "
          "stands in one place: mend one of the two, or leave it out)");
    const std::string into = "{\"format\": \"wayfolio-result\", \"version\": 1,\n \"instruments\": [{\"id\": \"laser\", \"serial\": 7}]}";
    CHECK_THAT((FactsCase{.facts = {kit}, .into = into}.faults()), Contains("expected the same as at job.json:2:44: 7 ("));
    const FactsFile limit =
        facts_of_bytes("limits.json", R"("limits": [{"error": "EXX", "tolerances": [{"parameter": "A", "limit": 7, "unit": "um"}]}])");
    const FactsCase in_mapping{.facts = {limit}, .series = R"("tolerances": [{"parameter": "A", "limit": 8, "unit": "um"}])"};
    CHECK_THAT(in_mapping.faults(), Contains("facts/limits.json:1:115: /limits/0/tolerances/0/limit: found 7; expected the same as at "
                                             "m.json:1:196: 8 ("));
}

TEST_CASE("an instrument that stands under two ids is a fault, and two makers may give one serial number") {
    const FactsFile kit = facts_of_bytes("kit.json", laser);
    const FactsFile renamed = facts_of_bytes("spare.json", R"("instruments": [{"id": "laser two", "serial": "L-1"}])");
    CHECK_THAT(
        (FactsCase{.facts = {kit, renamed}}.faults()),
        Contains("/instruments/0/serial: found \"L-1\"; expected a serial number that stands under one id; at facts/kit.json:1:86 it "
                 "stands under \"laser\""));
    const FactsFile one = facts_of_bytes("a.json", R"("instruments": [{"id": "a", "serial": "1", "maker": "A"}])");
    const FactsFile two = facts_of_bytes("b.json", R"("instruments": [{"id": "b", "serial": "1", "maker": "B"}])");
    CHECK(FactsCase{.facts = {one, two}}.document().member("instruments")->items.size() == 2);
}

TEST_CASE("limits go into the series of their error on machines of their kind, beside those that the series has") {
    const FactsFile facts = facts_of_bytes("limits.json", R"("machine": {"kind": "mill"}, "limits": [
      {"error": "EXX", "machine_kind": "mill", "tolerances": [{"parameter": "A", "limit": 7.0, "unit": "um", "source": "house"}]},
      {"error": "EXX", "machine_kind": "lathe", "tolerances": [{"parameter": "R", "limit": 1, "unit": "um"}]},
      {"error": "EYY", "tolerances": [{"parameter": "A", "limit": 1, "unit": "um"}]}])");
    const FactsCase with{.facts = {facts}, .series = R"("tolerances": [{"parameter": "E", "limit": 5, "unit": "um"}])"};
    const Gathered gathered = with.gathered();
    CHECK(text_of(document_of(gathered).member("series")->items[0], {"tolerances"}) ==
          R"([{"parameter": "E", "limit": 5, "unit": "um"}, {"parameter": "A", "limit": 7.0, "unit": "um", "source": "house"}])");
    CHECK_THAT(account_text(gathered.account), Contains("  limits.json: 2 contributors and limits left out"));
}

TEST_CASE("contributors go in for the errors that are measured, and for no other axis") {
    const FactsFile facts = facts_of_bytes("kit.json", R"("uncertainty": {"contributors": [
      {"name": "set-up", "applies_to": ["EXX", "EYY"], "standard": 0.3, "unit": "um"},
      {"name": "line", "applies_to": ["EYX"], "standard": 0.3, "unit": "um"}]})");
    CHECK(text_of(FactsCase{.facts = {facts}}.document(), {"uncertainty"}) ==
          R"({"contributors": [{"name": "set-up", "applies_to": ["EXX"], "standard": 0.3, "unit": "um"}]})");
    const FactsFile line = facts_of_bytes("line.json", R"("uncertainty": {"contributors": [
      {"name": "line", "applies_to": ["EYX"], "standard": 0.3, "unit": "um"}]})");
    CHECK(FactsCase{.facts = {line}}.document().member("uncertainty") == nullptr);
}

TEST_CASE("a logo beside the facts goes into the document itself") {
    const FactsFile facts = facts_of_bytes("lab.json", R"("job": {"laboratory": {"name": "Lab", "logo": "logo.svg"}})");
    CHECK(text_of(FactsCase{.facts = {facts}}.document(), {"job", "laboratory", "logo"}) == R"("data:image/svg+xml;base64,PHN2Zy8+")");
}

TEST_CASE("faults of facts are told where they stand, all at once, and so is what only the whole document shows") {
    const FactsFile bad =
        facts_of_bytes("bad.json", "\n\"machine\": {\"seriel\": \"1\"},\n\"series\": [], \"instruments\": [{\"due\": \"soon\"}]");
    const std::string faults = FactsCase{.facts = {bad}}.faults();
    CHECK_THAT(faults, Contains("facts/bad.json:2:13: /machine/seriel: found the key \"seriel\"; expected ") &&
                           Contains("(did you mean \"serial\"?)"));
    CHECK_THAT(faults, Contains("facts/bad.json:3:1: /series: found the key \"series\""));
    CHECK_THAT(faults, Contains("facts/bad.json:3:31: /instruments/0/id: found no key \"id\"") && Contains("/instruments/0/due"));
    const FactsFile machine = facts_of_bytes("mill.json", "\n \"machine\": {\"axes\": [{\"name\": \"X\"}]}");
    const FactsFile check = facts_of_bytes("kit.json", "\n\"setup\": {\"checks\": [{\"name\": \"offset\", \"axis\": \"Q\"}]}");
    CHECK_THAT((FactsCase{.facts = {machine, check}}.faults()),
               Contains("facts/kit.json:2:49: /setup/checks/0/axis: found \"Q\"; expected an axis of machine.axes: X"));
}

TEST_CASE("a mapping names facts, and one that is not there is a fault at its place") {
    const std::string mapping = R"({"facts": ["kit.json", "none.json"], )" + mapping_of(rows).substr(1);
    GatherRequest request{.mapping = mapping, .mapping_file = "m.json", .exports = exports_of(two_readings)};
    request.read_facts = [](const std::string& name) {
        if (name != "kit.json") throw input::InputMissing(name, "no such file");
        return facts_of_bytes(name, laser);
    };
    CHECK_THROWS_WITH(gather::gather(request),
                      Contains("m.json:1:24: /facts/1: found \"none.json\"; expected the name of a file of facts"));
    request.keep = true;
    const std::string one = R"({"facts": ["kit.json"], )" + mapping_of(rows).substr(1);
    request.mapping = one;
    const Gathered gathered = gather::gather(request);
    CHECK_THAT(text_of(document_of(gathered), {"facts"}), Contains(R"("kept": "kit.json")"));
    CHECK(std::ranges::find(gathered.side_files, "kit.json", &document::SideFile::name) != gathered.side_files.end());
}

TEST_CASE("facts and mappings that hold what is internal are not kept: what is kept goes to the customer") {
    const std::string mapping = R"({"internal": {"remarks": ["ours"]}, )" + mapping_of(rows).substr(1);
    GatherRequest request{.mapping = mapping, .mapping_file = "m.json", .exports = exports_of(two_readings), .keep = true};
    request.facts = {facts_of_bytes("kit.json", laser + R"(, "internal": {"remarks": ["ours"]})"),
                     facts_of_bytes("lab.json", R"("job": {"laboratory": {"name": "Lab"}})")};
    const Gathered gathered = gather::gather(request);
    std::vector<std::string> names;
    for (const document::SideFile& file : gathered.side_files) names.push_back(file.name);
    CHECK(names == std::vector<std::string>{"x.csv", "lab.json"});
    CHECK_THAT(account_text(gathered.account), Contains("  m.json: not kept, ") && Contains("  kit.json: not kept, "));
    CHECK(gathered.document.find("ours") == std::string::npos);
}
