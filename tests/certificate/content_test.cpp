#include "certificate/drafts.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

std::vector<std::string> pointers(const certificate::Certificate& draft) {
    std::vector<std::string> all;
    for (const auto& one : draft.missing) all.push_back(one.pointer);
    return all;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++found;
    return found;
}

/// The measurement result whose name begins so.
std::string result_called(const std::string& xml, const std::string& name) {
    const std::size_t at = xml.find("<dcc:content lang=\"en\">" + name), start = xml.rfind("<dcc:measurementResult ", at);
    return between(xml.substr(start), "<dcc:measurementResult ", "</dcc:measurementResult>");
}

}  // namespace

TEST_CASE("a draft says at its top and in a statement that it is one, and has no signature") {
    const std::string xml = Drafted(complete()).draft.xml;
    CHECK_THAT(xml, StartsWith("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- Draft of a digital calibration certificate, without "
                               "signature: not a certificate."));
    CHECK_THAT(xml,
               Contains("It carries no signature and no seal and is not a certificate.") && Contains("Invented data for demonstration"));
    CHECK_THAT(xml, !Contains("<ds:Signature") && !Contains("mainSigner"));
}

TEST_CASE("a document that states all has nothing missing") {
    const auto draft = Drafted(complete()).draft;
    CHECK(draft.missing.empty());
    CHECK_THAT(draft.xml, !Contains("Missing"));
    CHECK_THAT(draft.xml, Contains("<dcc:countryCodeISO3166_1>DE<") && Contains("<dcc:performanceLocation>customer<") &&
                              Contains("<dcc:uniqueIdentifier>WF-1001<"));
    CHECK_THAT(draft.xml, Contains("<dcc:beginPerformanceDate>2026-05-11<") && Contains("<dcc:endPerformanceDate>2026-05-11<") &&
                              Contains("<dcc:issueDate>2026-05-12<"));
    CHECK_THAT(draft.xml,
               Contains("<dcc:value>D-0007<") && Contains("<dcc:value>EX-2026-0114<") && Contains("<dcc:eMail>office@laboratory.example<"));
}

TEST_CASE("what the structure asks for and the document lacks is a named list, a comment in its place, and never a value") {
    const auto draft = Drafted(source / "tests/document/good/smallest.json").draft;
    CHECK(pointers(draft) == std::vector<std::string>{"/job/laboratory/country", "/job/number", "/job/measured/from", "/job/measured/to",
                                                      "/job/place_kind", "/machine", "/job/laboratory", "/job/people", "/job/customer"});
    for (const auto& one : draft.missing) {
        CHECK_THAT(draft.xml, Contains("<!-- Missing for a certificate: " + one.what + " (" + one.pointer + ") -->"));
        CHECK_THAT(draft.xml, Contains("<!-- Missing: " + one.what + " (" + one.pointer + ") -->"));
    }
    CHECK_THAT(draft.xml, !Contains("countryCodeISO3166_1>") && !Contains("PerformanceDate>") && !Contains("<dcc:customer>"));
}

TEST_CASE("white space is no statement") {
    Json json = complete();
    json["machine"]["serial"] = " \t\r\n";
    json["job"]["customer"]["name"] = " ";
    json["job"]["customer"]["address"] = {" "};
    CHECK(pointers(Drafted(json).draft) == std::vector<std::string>{"/machine/serial", "/job/customer/name", "/job/customer/address"});
}

TEST_CASE("without times of the job, the runs say when the measurement began and ended") {
    Json json = complete("smallest.json");
    json["series"][0]["runs"][0]["started"] = "2026-03-04T23:50Z";
    json["series"][0]["runs"][0]["ended"] = "2026-03-05T00:10Z";
    json["series"][0]["runs"][1]["ended"] = "2026-03-06";
    const std::string xml = Drafted(json).draft.xml;
    CHECK_THAT(xml, Contains("<dcc:beginPerformanceDate>2026-03-04<") && Contains("<dcc:endPerformanceDate>2026-03-06<"));
}

TEST_CASE("awkward words come through escaped, ours marked as English, the document's without a language") {
    Json json = complete();
    json["job"]["customer"]["name"] = "Dreher & Söhne <\"Präzision\"> ]]> --";
    json["series"][0]["id"] = "a--b-";
    json["uncertainty"].erase("stated");
    json["series"][0]["remarks"] = {"\t control"};
    const auto draft = Drafted(json).draft;
    CHECK(held_to_outline(draft.xml).code == 0);
    CHECK_THAT(draft.xml, Contains("<dcc:content>Dreher &amp; Söhne &lt;&quot;Präzision&quot;&gt; ]]&gt; --</dcc:content>"));
    CHECK_THAT(draft.xml, Contains("<dcc:content lang=\"en\">Series a--b- of the result document</dcc:content>") &&
                              Contains("<dcc:content>control</dcc:content>"));
}

TEST_CASE("as found is before an adjustment, as left after it; a state of the user's own has no such word") {
    const std::string xml = Drafted(complete("long-axis.json")).draft.xml;
    CHECK_THAT(result_called(xml, "Positioning EXX, as found"), Contains(">beforeAdjustment<") && !Contains(">afterAdjustment<"));
    CHECK_THAT(result_called(xml, "Positioning EXX, as left"), Contains(">afterAdjustment<") && !Contains(">beforeAdjustment<"));
    Json json = complete();
    json["series"][0]["state"] = "after the crash";
    CHECK_THAT(result_called(Drafted(json).draft.xml, "Positioning EXX, after the crash"), !Contains("dcc:status"));
}

TEST_CASE("a report that replaces another names it as that one was named, with the reason") {
    const std::string xml = Drafted(complete("long-axis.json")).draft.xml;
    const std::string replaced = between(xml, "<dcc:reportAmendedSubstituted>", "</dcc:reportAmendedSubstituted>");
    CHECK_THAT(replaced, Contains(">substituted<") && Contains("<dcc:replacedUniqueIdentifier>WF-2041<"));
    CHECK_THAT(xml,
               Contains("<dcc:uniqueIdentifier>WF-2041 revision 1<") && Contains("set-up repeatability added to the uncertainty budget"));
    Json json = complete("long-axis.json");
    json["job"]["replaces"]["revision"] = 3;
    CHECK_THAT(Drafted(json).draft.xml, Contains("<dcc:replacedUniqueIdentifier>WF-2041 revision 3<"));
    json["job"]["replaces"].erase("number");
    CHECK(pointers(Drafted(json).draft) == std::vector<std::string>{"/job/replaces/number"});
}

TEST_CASE("a verdict names its rule, its limit's source and what it judges; an undecided one claims nothing") {
    const std::string xml = Drafted(complete()).draft.xml;
    const std::string first =
        between(result_called(xml, "Positioning EXX, as found"), "<dcc:metaData refId=\"result-1-A\">", "</dcc:metaData>");
    CHECK_THAT(first, Contains("<dcc:norm>ILAC-G8:09/2019<") && Contains("<dcc:reference>purchase specification, clause 4<") &&
                          Contains("Rule: guard band (ILAC-G8)") && Contains("<dcc:conformity>"));
    Json json = complete("smallest.json");
    json["evaluation"]["decision_rule"] = "guard-band";
    json["series"][0]["tolerances"] = {{{"parameter", "E"}, {"limit", 100}, {"unit", "um"}}};
    const std::string undecided = Drafted(json).draft.xml;  // the rule needs a U, and there is none
    CHECK_THAT(undecided, Contains("Verdict: Not evaluated: ") && !Contains("<dcc:conformity>"));
}

TEST_CASE("local straightness is judged where it stands") {
    const std::string xml = result_called(Drafted(complete()).draft.xml, "Straightness error EYX, as found");
    const std::string refers = xml.substr(xml.rfind("refId=\"", xml.find("Conformity of local over 300 mm")));
    const std::string id = refers.substr(7, refers.find('"', 7) - 7);
    CHECK_THAT(between(xml, "id=\"" + id + "\"", "</dcc:quantity>"),
               Contains("Local straightness error over 300 mm") && Contains("end-point chord of the window"));
    CHECK_THAT(xml, Contains("minimum zone of the window"));
}

TEST_CASE("squareness stands as a result of both axes, with the square among the equipment") {
    const std::string xml = result_called(Drafted(complete("two-axes.json")).draft.xml, "Squareness error of X and Y");
    CHECK_THAT(xml, Contains("refId=\"axis-1 axis-2\"") && Contains("<si:label>squareness<") && Contains("Reference square") &&
                        Contains("<dcc:value>Q-4<"));
    CHECK_THAT(xml, Contains("<dcc:norm>ISO 230-1:2012<") && Contains("<dcc:metaData refId=\"squareness-1-squareness\">"));
}

TEST_CASE("a value that is not evaluated keeps its place and its reason; a stated one says that it is stated") {
    const std::string one_way = Drafted(source / "tests/golden/awkward/57-targets-14-m-one-run.json").draft.xml;
    CHECK(count(one_way, "not evaluated: ") > 0);
    const std::string stated = Drafted(source / "tests/golden/awkward/stated-only.json").draft.xml;
    CHECK_THAT(stated, Contains("as the analyst stated it; not recomputed") && Contains("Values as the analyst stated them"));
}

TEST_CASE("targets with gaps give lists without: each value stands with its own position") {
    Json json = complete("smallest.json");
    for (auto& run : json["series"][0]["runs"])
        if (run["approach"] == "negative") run["deviations"][0] = nullptr;
    const Drafted drafted(json);
    CHECK(held_to_outline(drafted.draft.xml).code == 0);
    CHECK(held_to_numbers(drafted, drafted.draft.xml).code == 0);
    CHECK(count(drafted.draft.xml, "<dcc:list>") == 2);
}

TEST_CASE("what a document marks internal is in no draft") {
    CHECK_THAT(Drafted(source / "tests/golden/awkward/draft-with-internal-remarks.json").draft.xml, !Contains("INTERNAL"));
}

TEST_CASE("surroundings stand as lowest, mean and highest of the samples about the runs, with the sensors of the axis") {
    Json json = complete("smallest.json");
    json["machine"] = {{"axes", {{{"name", "X"}, {"kind", "linear"}, {"sensors", {"bed"}}}}}};
    json["series"][0]["error"] = "EXX";
    json["environment"]["reference_temperature_C"] = 20;
    json["environment"]["samples"] = {{{"time", "2026-03-04T08:00Z"}, {"air_C", 20}, {"machine_C", {{"bed", 19.5}, {"column", 30}}}},
                                      {{"time", "2026-03-04T09:00Z"}, {"air_C", 22}, {"pressure_hPa", 1000}, {"humidity_percent", 40}},
                                      {{"time", "2026-03-04T10:00Z"}, {"air_C", 27}},
                                      {{"time", "2026-03-04T11:00Z"}, {"air_C", 99}}};
    for (auto& run : json["series"][0]["runs"]) run["started"] = "2026-03-04T08:30Z", run["ended"] = "2026-03-04T09:30Z";
    const std::string xml = Drafted(json).draft.xml;
    const std::string air = between(xml, ">Temperature of the air<", "</dcc:influenceCondition>");
    CHECK_THAT(air, Contains("<si:value>20<") && Contains("<si:value>23<") && Contains("<si:value>27<") && !Contains("99") &&
                        Contains("<si:unit>\\degreecelsius<") && Contains("3 samples"));
    CHECK_THAT(xml, Contains(">Pressure of the air<") && Contains("<si:unit>\\hecto\\pascal<") &&
                        Contains(">Temperature of the machine, bed<") && !Contains("column"));
    CHECK_THAT(xml, Contains("<si:value>19.5<") && Contains(">Reference temperature<"));
}

TEST_CASE("an instrument stands with the measurement that it made; one that no series names stands with all") {
    const std::string xml = Drafted(complete()).draft.xml;
    const std::string positioning = result_called(xml, "Positioning EXX, as found"), roll = result_called(xml, "Roll EAX, as found");
    CHECK_THAT(positioning, Contains(">L-118<") && !Contains(">N-052<") && Contains(">S-031<") &&
                                Contains("the document binds it to no single measurement"));
    CHECK_THAT(roll, !Contains(">L-118<") && Contains(">N-052<") && Contains(">S-031<"));
    CHECK_THAT(positioning, Contains("Expanded uncertainty for positioning, part for each metre") && Contains("coverage factor 2") &&
                                Contains("coefficient 11.5 µm/(m K)"));
}

TEST_CASE("traceability, condition of the machine and the time of each measurement stand where the document tells them") {
    Json json = complete();
    json["instruments"][0]["certified_by"] = "Example calibration laboratory";
    json["instruments"][0]["traceable_to"] = "the SI unit of length";
    json["instruments"][0]["vacuum_wavelength_nm"] = 632.9912;
    json["machine"]["condition"] = "in use, ways without damage";
    const std::string xml = Drafted(json).draft.xml;
    CHECK_THAT(xml, Contains(">Instrument laser: certificate EX-2026-0114, issued by Example calibration laboratory, calibrated "
                             "2026-01-14, traceable to the SI unit of length<"));
    const std::string machine = between(xml, "<dcc:item id=\"machine\">", "</dcc:item>");
    CHECK_THAT(machine, Contains(">Condition:<") && Contains(">in use, ways without damage<"));
    const std::string positioning = result_called(xml, "Positioning EXX, as found");
    CHECK_THAT(positioning, Contains(">Vacuum wavelength<") && Contains("<si:value>632.9912<") && Contains("<si:unit>\\nano\\metre<"));
    CHECK_THAT(positioning, Contains(">Measured 2026-05-11 "));
}

TEST_CASE("lengths in inches are written in SI units, and the positions with them") {
    Json json = complete("smallest.json");
    json["series"][0]["unit"] = "uin";
    json["series"][0]["position_unit"] = "in";
    const std::string xml = Drafted(json).draft.xml;
    CHECK_THAT(xml, Contains("<si:unitXMLList>\\milli\\metre<") && Contains("<si:unitXMLList>\\micro\\metre<"));
    const double second = json["series"][0]["targets"][1].get<double>() * 25.4;
    CHECK(std::stod(between(xml, "<si:valueXMLList>", "</si:valueXMLList>").substr(between(xml, "<si:valueXMLList>", " ").size())) ==
          Approx(second).epsilon(1e-12));
}

TEST_CASE("a draft tells a known bias of a length: not corrected but in U, or corrected as asked") {
    const auto method_of = [](const Json& document) {
        return between(result_called(Drafted(document).draft.xml, "Positioning EXX, as found"), "<dcc:usedMethods>", "</dcc:usedMethods>");
    };
    Json document = complete();
    const std::string added = method_of(document);
    CHECK_THAT(added, Contains("Not corrected: ") && Contains(" over the travel; U is enlarged by it"));
    CHECK_THAT(added, !Contains("Corrected for, as asked"));
    document["evaluation"]["air_correction"] = "from-record";
    const std::string corrected = method_of(document);
    CHECK_THAT(corrected, Contains("Corrected for, as asked: ") && !Contains("U is enlarged by it"));
}
