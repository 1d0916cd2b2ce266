#include "compare/comparison.hpp"
#include "document/read_document.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;

TEST_CASE("the $schema that an editor is told is not compared, and evaluates to the same numbers") {
    auto json = nlohmann::json::parse(support::file_bytes(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/short-axis.json"));
    const auto read = [&] { return document::read_document(json.dump(), "job.json", [](const std::string&) { return std::string(); }); };
    const document::Document untold = read();
    json["$schema"] = "schemas/result.schema.json";
    const document::Document told = read();
    const auto before = evaluate::evaluate(untold), after = evaluate::evaluate(told);
    CHECK(compare::compare({"old.json", untold, before}, {"new.json", told, after}).same());
    auto old_numbers = nlohmann::json::parse(evaluate::evaluation_json(untold, before));
    auto new_numbers = nlohmann::json::parse(evaluate::evaluation_json(told, after));
    CHECK(old_numbers.at("document") != new_numbers.at("document"));
    old_numbers.erase("document");
    new_numbers.erase("document");
    CHECK(old_numbers == new_numbers);
}
