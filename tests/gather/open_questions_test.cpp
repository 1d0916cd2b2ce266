#include "gather/mapping/open_questions.hpp"
#include "gather/gathering.hpp"
#include "gather/mapping/mapping.hpp"
#include "gather/propose/propose.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;
using Json = nlohmann::ordered_json;

namespace {

/// Every kind of open place that a proposal can have.
const std::vector<std::pair<std::string, std::string>> exports{
    {"a.csv", "Nominal,Dir,Cycle,Value,Date,Mark\n0,up,1,0.1,05/06/2026,\n5,down,1,0.2,05/06/2026,x\n"},
    {"b.csv", "Position;Value\n0;1,234\n1;2,345\n"},
    {"c.csv", "Target;Run 1 up;Run 1 down;Run 2 up;Run 2 down\n0;1;2;3;4\n5;1;2;3;4\n"},
    {"log.csv", "Time;Air;Pressure;Humidity;CO2\n2026-04-21 07:20;20,42;1008,2;43,8;420\n2026-04-21 07:30;20,45;1008,2;43,8;420\n"}};

std::vector<std::string> pointers_of_open_places(const std::string& mapping) {
    std::vector<std::string> places;
    try {
        (void)read_mapping(mapping, "m.json");
    } catch (const input::InputRejected& rejected) {
        for (const auto& problem : rejected.problems())
            if (problem.found == "an open place") places.push_back(problem.place.pointer);
    }
    return places;
}

Json answered(Json mapping, const OpenQuestion& question, const std::string& patch) {
    mapping[Json::json_pointer(question.at)].merge_patch(Json::parse(patch));
    return mapping;
}

}  // namespace

TEST_CASE("each open place of a mapping is asked for once, and nothing else is") {
    const std::string mapping = propose(exports_of(exports)).mapping;
    const auto questions = open_questions(mapping);
    const auto places = pointers_of_open_places(mapping);
    REQUIRE(questions.size() == places.size());
    for (std::size_t at = 0; at < places.size(); ++at) CHECK(places[at].starts_with(questions[at].at + "/" + questions[at].key));
    CHECK(open_questions(R"({"format": "wayfolio-mapping", "version": 1, "exports": []})").empty());
}

TEST_CASE("every choice that is offered fills the place it stands for with what a mapping takes there") {
    const std::string mapping = propose(exports_of(exports)).mapping;
    const auto before = pointers_of_open_places(mapping);
    std::size_t choices = 0;
    for (const OpenQuestion& question : open_questions(mapping)) {
        CAPTURE(question.at, question.key);
        CHECK((question.by == AnsweredBy::Choice) ==
              (question.key != "form" && question.key != "positive" && question.key != "negative" && question.key != "reasons"));
        for (const Choice& choice : question.choices) {
            CAPTURE(choice.says, choice.patch);
            const std::string filled = answered(Json::parse(mapping), question, choice.patch).dump();
            const auto after = pointers_of_open_places(filled);
            // A sequence there and back says runs and approaches together.
            CHECK(before.size() - after.size() == (choice.patch.find("motion") == std::string::npos ? 1U : 2U));
            ++choices;
        }
    }
    CHECK(choices > 100);
}

TEST_CASE("with every question answered by a choice or in words, the mapping is whole") {
    Json mapping = Json::parse(propose(exports_of(exports)).mapping);
    for (const OpenQuestion& question : open_questions(mapping.dump())) {
        const Json* const still = &mapping[Json::json_pointer(question.at)];
        if (!still->contains(question.key)) continue;  // said by an answer before
        const std::string patch = question.key == "form"       ? R"({"form": "DD/MM/YYYY"})"
                                  : question.key == "positive" ? R"({"positive": ["up"]})"
                                  : question.key == "negative" ? R"({"negative": ["down"]})"
                                                               : question.choices.front().patch;
        mapping = answered(mapping, question, patch);
    }
    CHECK(open_questions(mapping.dump()).empty());
    CHECK(pointers_of_open_places(mapping.dump()).empty());
    CHECK_NOTHROW(read_mapping(mapping.dump(), "m.json"));
}
