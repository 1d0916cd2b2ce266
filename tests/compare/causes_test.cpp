#include "compare/changes.hpp"
#include "compare/comparing.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::comparing;

namespace {

/// Two documents, what differs, and why.
struct Explained {
    Kept was, now;
    compare::Comparison comparison;
    std::optional<std::vector<compare::Cause>> causes;

    Explained(const Json& old, const Json& fresh) : was(old), now(fresh) {
        const compare::Side before{"old.json", was.document, was.evaluation}, after{"new.json", now.document, now.evaluation};
        comparison = compare::compare(before, after);
        causes = compare::causes(before, after, comparison);
    }
    /// Pointers of the changes that moved a result; readings by the id of their series. Nothing: it did not move.
    [[nodiscard]] std::optional<std::vector<std::string>> of(const std::string& parameter,
                                                             const std::string& series = "x-exx-found") const {
        for (const compare::Cause& cause : causes.value()) {
            if (cause.series != series || cause.parameter != parameter) continue;
            std::vector<std::string> names;
            for (const std::size_t place : cause.changes)
                names.push_back(place < comparison.changes.size() ? comparison.changes[place].pointer
                                                                  : comparison.readings[place - comparison.changes.size()].series);
            return names;
        }
        return std::nullopt;
    }
};

using Names = std::vector<std::string>;

/// The sample, with every U computed from its instruments and runs.
Json computed() {
    Json document = sample();
    document.erase("uncertainty");
    return document;
}

Json& limit_on(Json& document, const std::string& parameter) {
    for (Json& tolerance : positioning(document)["tolerances"])
        if (tolerance["parameter"] == parameter) return tolerance["limit"];
    throw std::runtime_error("no limit on " + parameter);
}

void exclude_a_reading(Json& document, int target = 12) {
    positioning(document)["runs"][0]["excluded"] = Json::array({{{"target", target}, {"reason", "invented: a truck passed"}}});
}

}  // namespace

TEST_CASE("a result names the changes that move it when they are made alone, and no other") {
    Json now = computed();
    exclude_a_reading(now);
    now["instruments"][0]["expanded_uncertainty"]["straightness"]["um"] = 0.6;
    now["job"]["title"] = "Another title";
    const Explained explained(computed(), now);
    CHECK(explained.of("R") == Names{"x-exx-found"});
    CHECK(explained.of("straightness", "x-eyx-found") == Names{"/instruments/0/expanded_uncertainty/straightness/um"});
    CHECK_FALSE(explained.of("angle", "x-ebx-found"));  // neither touches the angles
}

TEST_CASE("of two changes that both move a result, both are named") {
    Json now = computed();
    exclude_a_reading(now, 0);  // at the target that sets the low end of E
    now["instruments"][0]["expanded_uncertainty"]["positioning"]["um"] = 3;
    const auto named = Explained(computed(), now).of("E");
    REQUIRE(named);
    CHECK(*named == Names{"/instruments/0/expanded_uncertainty/positioning/um", "x-exx-found"});
}

TEST_CASE("a verdict that only a new rule and a new limit turn together is because of neither alone") {
    Json was = sample();
    was["evaluation"]["decision_rule"] = "simple";
    Json now = was;
    // Inside, by less than U: 1.2 µm as the document states it.
    const auto same = compared(was, was);
    limit_on(now, "E") = change_of(same, "E").now->in(units::micrometre) + 0.6;
    const Explained limit_alone(was, now);
    CHECK_FALSE(limit_alone.of("E"));
    now["evaluation"]["decision_rule"] = "guard-band";
    const Explained both(was, now);
    REQUIRE(both.of("E"));
    CHECK(both.of("E")->empty());
}

TEST_CASE("a change that cannot be read without another is not named alone: what it does is done together") {
    Json now = computed();
    Json second = now["instruments"][0];
    second["id"] = "second";
    second["expanded_uncertainty"]["positioning"]["um"] = 3;
    now["instruments"].push_back(second);
    positioning(now)["instrument"] = "second";
    const Explained explained(computed(), now);
    REQUIRE(explained.of("E"));
    CHECK(explained.of("E")->empty());
}

TEST_CASE("another id, another order and another name move nothing") {
    Json now = computed();
    positioning(now)["id"] = "renamed";
    std::swap(now["series"][0], now["series"][3]);
    now["job"]["number"] = "WF-9";
    const Explained explained(computed(), now);
    REQUIRE(explained.causes);
    CHECK(explained.causes->empty());
}

TEST_CASE("where more entries changed than can be tried, no cause is given") {
    Json now = computed();
    for (int i = 0; i < 50; ++i) {
        Json instrument = now["instruments"][2];
        instrument["id"] = "further-" + std::to_string(i);
        now["instruments"].push_back(instrument);
    }
    CHECK_FALSE(Explained(computed(), now).causes);
}

TEST_CASE("the old document with no change is the old one, with every change the new one") {
    Json now = computed();
    exclude_a_reading(now);
    positioning(now)["id"] = "renamed";
    positioning(now).erase("dead_path_mm");
    positioning(now)["warm_up"] = "one hour";
    now["instruments"].erase(2);
    now["setup"]["checks"].erase(0);
    const std::string before = computed().dump(), after = now.dump();
    const Explained explained(computed(), now);
    const auto& pairs = explained.comparison.paired_by_error;
    CHECK(Json::parse(compare::with_changes(before, after, pairs, {})) == computed());
    compare::TakenOver every;
    for (std::size_t i = 0; i < explained.comparison.changes.size(); ++i) every.changes.insert(i);
    for (const auto& readings : explained.comparison.readings) every.readings_of.insert(readings.series);
    CHECK(Json::parse(compare::with_changes(before, after, pairs, every)) == now);
}

TEST_CASE("the JSON names what moved a result by the places of its changes, and says whether that was sought") {
    Json now = computed();
    exclude_a_reading(now);
    now["instruments"][0]["expanded_uncertainty"]["straightness"]["um"] = 0.6;
    const Explained explained(computed(), now);
    const Json told = Json::parse(compare::comparison_json(explained.comparison, explained.causes));
    CHECK(told["causes_sought"] == true);
    const auto because_of = [&](const std::string& series, const std::string& parameter) {
        for (const Json& one : told["parameters"])
            if (one.value("series", "") == series && one["parameter"] == parameter) return one.value("because_of", Json());
        return Json("no such parameter");
    };
    const Json moved = because_of("x-exx-found", "R");
    CHECK(moved["changes"].empty());
    REQUIRE(moved["readings"].size() == 1);
    CHECK(told["readings"][moved["readings"][0].get<std::size_t>()]["series"] == "x-exx-found");
    const Json widened = because_of("x-eyx-found", "straightness");
    REQUIRE(widened["changes"].size() == 1);
    CHECK(told["changes"][widened["changes"][0].get<std::size_t>()]["pointer"] ==
          "/instruments/0/expanded_uncertainty/straightness/um");
    CHECK(because_of("x-ebx-found", "angle").is_null());
    const Json untold = Json::parse(compare::comparison_json(explained.comparison, std::nullopt));
    CHECK(untold["causes_sought"] == false);
    for (const Json& one : untold["parameters"]) CHECK_FALSE(one.contains("because_of"));
}
