#include "catalogue/index.hpp"
#include "files/output_failed.hpp"
#include "input/encoding.hpp"
#include "catalogue/query.hpp"
#include "catalogue/visit.hpp"
#include "input/encoding.hpp"
#include "input/problem.hpp"
#include "support/light_records.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

using namespace wayfolio;
using namespace wayfolio::testing;
using catalogue::Query;
using Catch::Matchers::Contains;
using support::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

/// Three visits of two machines: S-1 passes, then lies within its guard band; S-2 fails.
void write_three(const TemporaryFolder& folder) {
    write_light_record(folder / "a", {.job = "K-1", .accuracy_um = 4});
    write_light_record(folder / "deep/er/b", {.job = "K-2", .day = "2025-01-10", .accuracy_um = 9.5});
    write_light_record(folder / "c",
                       {.job = "K-3", .serial = "S-2", .customer = "Other Works", .day = "2025-06-01", .accuracy_um = 12, .axis = "Y"});
}

std::vector<catalogue::ListedVisit> asked(const TemporaryFolder& folder, const Query& query = {}) {
    return catalogue::find_visits(catalogue::open_index(catalogue::index_in(folder.path())), query);
}

catalogue::Indexed updated(const TemporaryFolder& folder) {
    return catalogue::update_index(folder.path(), catalogue::index_in(folder.path()));
}

std::string jobs(const std::vector<catalogue::ListedVisit>& visits) {
    std::string text;
    for (const auto& visit : visits) text += visit.job + (visit.replaced ? "*" : "") + " ";
    return text;
}

void change_byte(const fs::path& file, std::size_t at, char to) {
    std::string bytes = support::file_bytes(file);
    REQUIRE(at < bytes.size());
    bytes[at] = to;
    std::ofstream(file, std::ios::binary) << bytes;
}

}  // namespace

TEST_CASE("what was agreed to be measured again is due until it was, quantity by quantity") {
    const TemporaryFolder folder;
    write_light_record(folder / "a", {.job = "K-1", .day = "2024-08-31", .agreed_months = 6});
    write_light_record(folder / "b", {.job = "K-2", .day = "2024-03-10", .axis = "Y", .agreed_months = 12});
    write_light_record(folder / "c", {.job = "K-3", .serial = "S-2", .day = "2024-01-10"});
    write_light_record(folder / "d", {.job = "K-4", .serial = "", .day = "2024-01-10", .agreed_months = 1});
    updated(folder);
    CHECK(asked(folder).at(3).due == "2025-02-28");  // of a month without a 31st
    CHECK(jobs(asked(folder, {.due_by = "2025-03-10"})) == "K-4 K-1 K-2 ");
    CHECK(jobs(asked(folder, {.due_by = "2025-03-09"})) == "K-4 K-1 ");
    CHECK(jobs(asked(folder, {.due_by = "2024-02-09"})).empty());
    CHECK(jobs(asked(folder, {.serial = "S-2", .due_by = "2099-01-01"})).empty());
    // Another axis of the machine answers nothing; the same does, also where nothing more was agreed. A replaced revision neither.
    write_light_record(folder / "e", {.job = "K-5", .day = "2025-01-10", .axis = "Y"});
    write_light_record(folder / "d2", {.job = "K-6", .serial = "", .day = "2025-01-10"});
    updated(folder);
    CHECK(jobs(asked(folder, {.due_by = "2025-12-31"})) == "K-4 K-1 ");
    // Nor does another quantity of the same axis.
    write_record_of(R"({"format": "wayfolio-result", "version": 1, "job": {"number": "K-7", "data_notice": "Invented data",
 "measured": {"from": "2025-02-01"}}, "machine": {"serial": "S-1", "axes": [{"name": "X", "kind": "linear"}]},
 "series": [{"id": "roll", "error": "EAX", "unit": "urad", "position_unit": "mm", "targets": [0, 250, 500],
  "runs": [{"approach": "positive", "deviations": [0, 1, 2]}]}]})",
                    folder / "roll", "K-7", 0);
    updated(folder);
    REQUIRE(jobs(asked(folder)).find("K-7") != std::string::npos);
    CHECK(jobs(asked(folder, {.due_by = "2025-12-31"})) == "K-4 K-1 ");
    write_light_record(folder / "a",
                       {.job = "K-1", .day = "2024-08-31", .revision = 1, .replaces = R"("revision": 0)", .agreed_months = 24});
    updated(folder);
    CHECK(jobs(asked(folder, {.due_by = "2025-12-31"})) == "K-4 ");
    CHECK(jobs(asked(folder, {.due_by = "2026-08-31"})) == "K-4 K-1 ");
    CHECK_THAT(catalogue::listing_text(asked(folder, {.due_by = "2026-08-31"})), Contains("due 2026-08-31"));
}

TEST_CASE("records at any depth are found by machine, axis, serial, customer, date and verdict") {
    const TemporaryFolder folder;
    write_three(folder);
    const auto done = updated(folder);
    CHECK(done.read == 3);
    CHECK(done.problems.empty());
    CHECK(jobs(asked(folder)) == "K-1 K-2 K-3 ");
    CHECK(jobs(asked(folder, {.machine = "demonSTRATOR"})) == "K-1 K-2 K-3 ");
    CHECK(jobs(asked(folder, {.serial = "S-1"})) == "K-1 K-2 ");
    CHECK(jobs(asked(folder, {.customer = "other"})) == "K-3 ");
    CHECK(jobs(asked(folder, {.axis = "Y"})) == "K-3 ");
    CHECK(jobs(asked(folder, {.from = "2025-01-10", .to = "2025-05-31"})) == "K-2 ");
    CHECK(jobs(asked(folder, {.verdict = "fail"})) == "K-2 K-3 ");
    CHECK(jobs(asked(folder, {.axis = "X", .verdict = "fail"})) == "K-2 ");
    CHECK(jobs(asked(folder, {.serial = "S-1' OR '1'='1"})).empty());
}

TEST_CASE("the verdict of a visit is that of the machine as left, that as found stands beside it") {
    const TemporaryFolder folder;
    // E is 12 µm as found and 4 µm as left; its limit is 10 µm.
    nlohmann::json both = nlohmann::json::parse(light_document({.job = "K-9", .accuracy_um = 12}));
    nlohmann::json left = nlohmann::json::parse(light_document({.job = "K-9", .state = "as-left", .accuracy_um = 4}))["series"][0];
    left["id"] = "axis-left";
    both["series"].push_back(left);
    nlohmann::json U = both["uncertainty"]["stated"][0];
    U["series"] = "axis-left";
    both["uncertainty"]["stated"].push_back(U);
    write_record_of(both.dump(), folder / "both", "K-9", 0);
    write_light_record(folder / "one", {.job = "K-10", .accuracy_um = 9.5});
    updated(folder);
    const auto visits = asked(folder);
    REQUIRE(visits.size() == 2);
    const auto& adjusted = visits[0].job == "K-9" ? visits[0] : visits[1];
    const auto& refused = visits[0].job == "K-9" ? visits[1] : visits[0];
    CHECK(adjusted.verdict == "Inside");
    CHECK(adjusted.found == "Outside");
    // 9.5 µm keeps its limit of 10 µm, but not by its U of 0.8 µm.
    CHECK(refused.verdict == "Not accepted");
    CHECK(refused.found.empty());
    CHECK(jobs(asked(folder, {.verdict = "fail"})) == "K-10 ");
    CHECK(jobs(asked(folder, {.verdict = "pass"})) == "K-9 ");
    CHECK_THAT(catalogue::listing_text(visits), Contains("Inside") && Contains("as found: Outside") && Contains("Not accepted"));
}

TEST_CASE("what a visit says is what its record's evaluation says") {
    const TemporaryFolder folder;
    const auto bag = write_light_record(folder / "a", {.accuracy_um = 4, .limit_um = 10, .U_um = 0.8});
    const auto visit = catalogue::read_visit(folder.path(), bag);
    CHECK(visit.fault.empty());
    const auto E = std::ranges::find_if(visit.results, [](const auto& result) { return result.parameter == "E"; });
    REQUIRE(E != visit.results.end());
    CHECK(E->value == 4.0);
    CHECK(E->expanded == 0.8);
    CHECK(E->limit == 10.0);
    CHECK(E->outcome == "pass");
    CHECK(E->axis == "X");
    CHECK(E->unit == "um");
}

TEST_CASE("a result says what it is comparable with: its reference line and its travel; squareness is a result of its own") {
    const TemporaryFolder folder;
    const auto bag =
        write_record_of(support::file_bytes(fs::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/two-axes.json"), folder / "a", "K-1", 0);
    const auto visit = catalogue::read_visit(folder.path(), bag);
    REQUIRE(visit.fault.empty());
    const auto result = [&](const std::string& parameter) {
        const auto found = std::ranges::find(visit.results, parameter, &catalogue::Result::parameter);
        REQUIRE(found != visit.results.end());
        return *found;
    };
    CHECK(result("A").low == 0.0);
    CHECK(result("A").high.value() > 100);
    CHECK(result("straightness").reference_line == "least_squares");
    CHECK(std::ranges::count(visit.results, "squareness", &catalogue::Result::parameter) == 1);
    CHECK(result("squareness").error == "X-Y");
    CHECK(result("squareness").unit == "urad");
    CHECK(result("squareness").value);
    CHECK(result("squareness").limit);
    CHECK(result("squareness").expanded);
}

TEST_CASE("only what was changed is read again, and what is gone is forgotten") {
    const TemporaryFolder folder;
    write_three(folder);
    updated(folder);
    fs::remove_all(folder / "c");
    write_light_record(folder / "d", {.job = "K-4"});
    const auto done = updated(folder);
    CHECK(done.read == 1);
    CHECK(done.unchanged == 2);
    CHECK(done.gone == 1);
    CHECK(jobs(asked(folder)) == "K-1 K-4 K-2 ");
}

TEST_CASE("a revision that a later one names is listed as replaced") {
    const TemporaryFolder folder;
    write_light_record(folder / "a", {.job = "K-1"});
    updated(folder);
    write_light_record(folder / "a", {.job = "K-1", .revision = 1, .replaces = R"("revision": 0, "reason": "a sensor was read wrongly")"});
    write_light_record(folder / "b", {.job = "K-2", .day = "2024-02-01"});
    updated(folder);
    CHECK(jobs(asked(folder)) == "K-1* K-1 K-2 ");
    CHECK_THAT(catalogue::listing_text(asked(folder)), Contains("K-1, revision 0") && Contains("[replaced]"));
}

TEST_CASE("a record without a job number is replaced only by a revision of its own record") {
    const TemporaryFolder folder;
    write_light_record(folder / "a", {.job = ""});
    write_light_record(folder / "b", {.job = "", .day = "2024-03-01"});
    write_light_record(folder / "c", {.job = "K-1", .day = "2024-04-01"});
    updated(folder);
    CHECK(jobs(asked(folder)) == "  K-1 ");
    write_light_record(folder / "b", {.job = "", .day = "2024-03-01", .revision = 1, .replaces = R"("revision": 0, "reason": "a sensor")"});
    updated(folder);
    CHECK(jobs(asked(folder)) == " *  K-1 ");
}

TEST_CASE("a damaged record is named and passed over, each time, and the others are found") {
    const TemporaryFolder folder;
    write_three(folder);
    const auto [file, said] = GENERATE(table<std::string, std::string>({{"data/evaluation.json", "changed"},
                                                                        {"data/inputs/wayfolio-result.json", "changed"},
                                                                        {"manifest-sha256.txt", "changed"},
                                                                        {"bag-info.txt", "changed"}}));
    change_byte(folder / "a/revision-0/" + file, 12, '#');
    for (int time = 0; time < 2; ++time) {
        const auto done = updated(folder);
        REQUIRE(done.problems.size() == 1);
        CHECK_THAT(done.problems.front(), Contains("a/revision-0: " + file) && Contains(said));
        CHECK(jobs(asked(folder)) == "K-2 K-3 ");
    }
}

TEST_CASE("a record that lost a file is damaged, not absent", "[slow]") {
    const TemporaryFolder folder;
    write_three(folder);
    const std::string file = GENERATE("bagit.txt", "data/evaluation.json", "manifest-sha256.txt", "tagmanifest-sha256.txt");
    fs::remove(folder / "a/revision-0/" + file);
    const auto done = updated(folder);
    REQUIRE(done.problems.size() == 1);
    CHECK_THAT(done.problems.front(), Contains("a/revision-0: "));
    CHECK(jobs(asked(folder)) == "K-2 K-3 ");
}

TEST_CASE("links are not followed, so loops end and nothing is counted twice; unfinished folders are passed over") {
    const TemporaryFolder folder;
    write_three(folder);
    fs::create_directory_symlink("..", folder / "deep/loop");
    fs::create_directory_symlink(folder / "a", folder / "again");
    fs::copy(folder / "a/revision-0", folder / "a/.revision-1.part-7-0", fs::copy_options::recursive);
    CHECK(updated(folder).problems.empty());
    CHECK(jobs(asked(folder)) == "K-1 K-2 K-3 ");
}

TEST_CASE("an index that is damaged, cut off or of another version is made again, and that is said", "[slow]") {
    const TemporaryFolder folder;
    write_three(folder);
    updated(folder);
    const fs::path index = catalogue::index_in(folder.path());
    const int how = GENERATE(0, 1, 2, 3, 4, 5, 6);
    if (how == 0) std::ofstream(index, std::ios::binary) << "no database at all";
    if (how == 1) fs::resize_file(index, 5000);
    if (how == 2) database::Database(index, database::Access::Write).run("PRAGMA user_version = 999");
    if (how == 3) for (std::size_t at = 4096; at < 4296; ++at) change_byte(index, at, '\xff');
    if (how == 4) database::Database(index, database::Access::Write).run("DROP TABLE result");
    if (how == 5) database::Database(index, database::Access::Write).run("ALTER TABLE visit RENAME COLUMN job TO other");
    if (how == 6)
        database::Database(index, database::Access::Write).run("CREATE TRIGGER t AFTER INSERT ON visit BEGIN DELETE FROM visit; END");
    if (how == 2 || how > 3) CHECK_THROWS_AS(catalogue::open_index(index), input::InputMissing);
    const auto done = updated(folder);
    CHECK_FALSE(done.rebuilt.empty());
    CHECK(done.read == 3);
    CHECK(jobs(asked(folder)) == "K-1 K-2 K-3 ");
    CHECK(updated(folder).rebuilt.empty());
}

TEST_CASE("a file of somebody else's is never taken for an index to make again") {
    const TemporaryFolder folder;
    write_three(folder);
    const std::string other =
        folder.file("other.json", "{\"mine\": true, \"and\": \"long enough to hold a head of seventy-two bytes or more\"}");
    CHECK_THROWS_AS(catalogue::update_index(folder.path(), other), files::OutputFailed);
    CHECK_THAT(support::file_bytes(other), Contains("mine"));
}

TEST_CASE("a killed run leaves the index as it was", "[slow]") {
    const TemporaryFolder folder;
    write_three(folder);
    updated(folder);
    for (int more = 0; more < 40; ++more) write_light_record(folder / ("more/" + std::to_string(more)), {.job = "K-9"});
    const pid_t child = fork();
    if (child == 0) {
        // Killed in the transaction, with pages of it on the disk: the small cache spills them before the commit.
        database::Database database(catalogue::index_in(folder.path()), database::Access::Write);
        database.run("PRAGMA cache_size = 1; BEGIN IMMEDIATE; DELETE FROM result; DELETE FROM visit");
        raise(SIGKILL);
        _exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
    const auto done = updated(folder);
    CHECK(done.rebuilt.empty());
    CHECK(done.unchanged == 3);
    CHECK(done.read == 40);
}

TEST_CASE("a folder that is not there, or an index that is not, is said") {
    const TemporaryFolder folder;
    CHECK_THROWS_AS(catalogue::update_index(folder / "none", folder / "x"), input::InputMissing);
    CHECK_THROWS_AS(catalogue::open_index(folder / "none"), input::InputMissing);
}

TEST_CASE("text of a record cannot command a terminal") {
    CHECK(input::printable("a\x1b[2Jb") == "a\\x1b[2Jb");
    CHECK(input::printable("a\xc2\x9b" "2Jb") == "a\\xc2\\x9b2Jb");
    CHECK(input::printable("a\xff" "b") == "a\\xffb");
    CHECK(input::printable("a\n  holds\tb\r") == "a\\n  holds\\x09b\\x0d");
    CHECK(input::printable("a\xe2\x80\xae" "fdp.b") == "a\\xe2\\x80\\xaefdp.b");
    CHECK(input::printable("µm") == "µm");
}
