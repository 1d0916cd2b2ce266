#include "commands/program.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using SampleJson = nlohmann::ordered_json;

namespace {

std::vector<std::string> sample_documents() {
    std::vector<std::string> found;
    for (const char* folder : {"/sample-results", "/sample-results/visits"})
        for (const auto& entry : std::filesystem::directory_iterator(source_folder + folder))
            if (entry.path().extension() == ".json") found.push_back(entry.path().string());
    return found;
}

/// Of one series: what a readings table gives, which has no times of runs.
SampleJson part_for(const SampleJson& series) {
    return {{"file", series.at("id").get<std::string>() + ".csv"},
            {"ends", "empty-row"},
            {"position", {{"column", "position"}}},
            {"approach", {{"column", "approach"}}},
            {"excluded", {{"column", "excluded"}, {"form", "list"}}},
            {"values", {{{"series", series.at("id")}, {"columns", "reading_#"}}}}};
}

/// The evaluation of a document, without what names the document itself.
std::string evaluation_of(const std::string& document) {
    SampleJson said = SampleJson::parse(called_with("evaluate " + document).out);
    said.erase("document");
    return said.dump(1);
}

}  // namespace

TEST_CASE("tables of all samples are gathered into the same evaluation, byte for byte", "[slow]") {
    std::size_t tables = 0;
    for (const std::string& sample : sample_documents()) {
        INFO(sample);
        const TemporaryFolder folder;
        SampleJson document = SampleJson::parse(file_bytes(sample));
        SampleJson mapping{
            {"format", "wayfolio-mapping"}, {"version", 1}, {"series", SampleJson::array()}, {"exports", SampleJson::array()}};
        std::string exports;
        for (SampleJson& series : document["series"]) {
            REQUIRE(series.value("sign", "actual-minus-target") == "actual-minus-target");
            for (SampleJson& run : series["runs"]) run.erase("started"), run.erase("ended");
            mapping["series"].push_back({{"id", series["id"]},
                                         {"error", series["error"]},
                                         {"unit", series["unit"]},
                                         {"position_unit", series["position_unit"]},
                                         {"sign", "actual-minus-target"}});
            series["sign"] = "actual-minus-target";
            mapping["exports"].push_back(part_for(series));
            const std::string table = folder / series["id"].get<std::string>() + ".csv";
            REQUIRE(called_with("table " + sample + " --series " + series["id"].get<std::string>() + " -o " + table).code == 0);
            exports += " " + table;
            ++tables;
        }
        const std::string whole = folder.file("whole.json", document.dump());
        for (SampleJson& series : document["series"]) series.erase("runs");
        const std::string waiting = folder.file("waiting.json", document.dump());
        const Ran ran = called_with("gather " + folder.file("m.json", mapping.dump()) + exports + " --into " + waiting + " -o " +
                                    folder / "again.json");
        CHECK(ran.err == "");
        REQUIRE(ran.code == 0);
        CHECK(evaluation_of(folder / "again.json") == evaluation_of(whole));
    }
    CHECK(tables > 25);
}
