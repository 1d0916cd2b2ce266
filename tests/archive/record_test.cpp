#include "archive/drawings.hpp"

#include "archive/record/making.hpp"
#include "files/output_failed.hpp"
#include "produce/inputs.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <set>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

const std::string first_text = file_bytes(smallest);

/// The smallest document as revision 1, which replaces revision 0.
std::string second_text(const std::string& replaces = R"("replaces": {"revision": 0, "reason": "a sensor was read wrongly"},)") {
    return with(first_text, "\"job\": {", "\"job\": {\"revision\": 1, " + replaces);
}

void add_second(const fs::path& record, const std::string& text = second_text()) {
    const Drawn made(document_of(text));
    archive::write_record(made.drawing(), record, [](std::string_view) {});
}

std::set<std::string> files_under(const fs::path& folder) {
    std::set<std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) files.insert(entry.path().lexically_relative(folder).string());
    return files;
}

/// Kills a child that writes a bag before its `step`-th step. False when it was through before that.
bool killed_at(int step, const fs::path& bag, const archive::Files& payload) {
    const pid_t child = fork();
    if (child == 0) {
        int left = step;
        archive::write_bag(bag, {payload, {}}, {}, [&](std::string_view) {
            if (left-- == 0) raise(SIGKILL);
        });
        _exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFSIGNALED(status);
}

}  // namespace

TEST_CASE("a record holds the document as given, its side files, and all that was made of it") {
    const TemporaryFolder folder;
    const fs::path data = record_in(folder, traced) / "revision-0/data";
    CHECK(file_bytes(data / "inputs/wayfolio-result.json") == file_bytes(traced));
    CHECK(file_bytes(data / "inputs/trace.csv") == file_bytes(traced.parent_path() / "trace.csv"));
    CHECK(file_bytes(data / "report.pdf") == Drawn(traced).pdf());
    const std::set<std::string> files = files_under(data);
    for (const char* name : {"evaluation.json", "fonts/Inter-Regular.otf", "figures/01-x-eyx-error.svg", "figures/01-x-eyx-error.pdf",
                             "inputs/wayfolio-layout-2.json"})
        CHECK(files.contains(name));
}

TEST_CASE("sha256sum and sha512sum find every file of a bag as its manifests say, and the manifests name every file") {
    const TemporaryFolder folder;
    const fs::path bag = record_in(folder) / "revision-0";
    for (const char* algorithm : {"sha256", "sha512"}) {
        const std::string enter = "cd " + bag.string() + " && " + algorithm + "sum --strict --check --quiet ";
        CHECK(run(enter + "manifest-" + algorithm + ".txt").code == 0);
        CHECK(run(enter + "tagmanifest-" + algorithm + ".txt").code == 0);
        const std::string manifest = file_bytes(bag / ("manifest-" + std::string(algorithm) + ".txt"));
        for (const std::string& file : files_under(bag / "data")) CHECK_THAT(manifest, Contains("  data/" + file + "\n"));
    }
    CHECK(file_bytes(bag / "bagit.txt") == "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
    CHECK_THAT(file_bytes(bag / "bag-info.txt"), Contains("Payload-Oxum: ") && Contains("Wayfolio-Fingerprint: sha256:"));
}

TEST_CASE("the crate names every file once, and says in PROV terms what was made from what") {
    const TemporaryFolder folder;
    const fs::path data = record_in(folder) / "revision-0/data";
    const auto crate = nlohmann::json::parse(file_bytes(data / "ro-crate-metadata.json"));
    std::map<std::string, nlohmann::json> entities;
    for (const auto& entity : crate["@graph"]) CHECK(entities.emplace(entity["@id"], entity).second);
    for (const std::string& file : files_under(data)) CHECK(entities.contains(file));
    CHECK(entities.at("report.pdf")["prov:wasGeneratedBy"]["@id"] == "#making");
    CHECK(entities.at("report.pdf")["prov:wasDerivedFrom"]["@id"] == "inputs/wayfolio-result.json");
    CHECK(entities.at("#wayfolio")["softwareVersion"] == std::string(version()));
    CHECK(entities.at("#making")["prov:used"].size() == entities.at("#making")["object"].size());
    CHECK(entities.at("#making")["identifier"] == "sha256:" + produce::inputs_of(Drawn(smallest).drawing(), {}).fingerprint);
}

TEST_CASE("a record holds each compensation table as CSV and as JSON, refused ones with their reasons") {
    const archive::Files payload = archive::payload_of(Drawn(source / "tests/golden/awkward/compensation-tables.json").drawing());
    std::size_t tables = 0, refused = 0;
    for (const auto& [path, bytes] : payload) {
        if (!path.starts_with("compensation/") || !path.ends_with(".csv")) continue;
        const auto json = nlohmann::json::parse(payload.at(path.substr(0, path.size() - 4) + ".json"));
        CHECK(json["format"] == "wayfolio-compensation");
        refused += json.contains("refused") ? 1 : 0;
        ++tables;
    }
    CHECK(tables == 5);
    CHECK(refused >= 1);
}

TEST_CASE("a record of the same document is the same bytes") {
    const TemporaryFolder one, other;
    CHECK(run("diff -r " + record_in(one).string() + " " + record_in(other).string()).code == 0);
}

TEST_CASE("a record is never overwritten: a revision follows the newest one, names it and says why") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    CHECK_THROWS_WITH(add_second(record, first_text), Contains("/job/revision"));
    CHECK_THROWS_WITH(add_second(record, second_text("")), Contains("/job/replaces"));
    CHECK_THROWS_WITH(add_second(record, second_text(R"("replaces": {"revision": 7, "reason": "x"},)")),
                      Contains("/job/replaces/revision"));
    CHECK_THROWS_WITH(add_second(record, second_text(R"("replaces": {"revision": 0},)")), Contains("/job/replaces/reason"));
    CHECK_THROWS_WITH(add_second(record, with(second_text(), "\"job\": {", "\"job\": {\"number\": \"another\", ")),
                      Contains("/job/number"));
    CHECK(archive::revisions_in(record).size() == 1);
    add_second(record);
    REQUIRE(archive::revisions_in(record).size() == 2);
    CHECK_THAT(file_bytes(record / "revision-1/bag-info.txt"),
               Contains("Wayfolio-Replaces: revision-0\nWayfolio-Reason: a sensor was read wrongly\n"));
    CHECK_THAT(run("pdftotext -l 1 " + (record / "revision-1/data/report.pdf").string() + " - | tr '\\n' ' '").out,
               Contains("Replaces revision 0") && Contains("sensor was read wrongly"));
    CHECK(verdict_of(record).sound());
}

TEST_CASE(
    "a record may begin with a revision whose predecessor lies elsewhere, and is sound; a revision that was taken out of a record is "
    "missed") {
    const TemporaryFolder folder;
    const fs::path record = folder.path() / "record";
    add_second(record);
    CHECK_THAT(file_bytes(record / "revision-1/bag-info.txt"),
               Contains("Wayfolio-Replaces-Elsewhere: ") && Contains("revision 0\nWayfolio-Reason: a sensor was read wrongly\n"));
    CHECK(verdict_of(record).sound());
    const TemporaryFolder other;
    const fs::path whole = record_in(other);
    add_second(whole);
    fs::remove_all(whole / "revision-0");
    CHECK_FALSE(verdict_of(whole).sound());
    CHECK_THAT(archive::verification_text(verdict_of(whole)), Contains("revision-1 replaces revision-0, which is missing"));
}

TEST_CASE("the newest revision is the one that is drawn again") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    add_second(record);
    CHECK_THAT(archive::bytes_of(archive::kept_from(record), "wayfolio-result.json"), Contains("a sensor was read wrongly"));
    CHECK(archive::bytes_of(archive::kept_from(record / "revision-0"), "wayfolio-result.json") == first_text);
}

TEST_CASE("killed before any step, a run leaves the old record or the new one whole, and verify names what is left over") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder), next = record / "revision-1";
    const Drawn made(document_of(second_text()));
    const archive::Files payload = archive::payload_of(made.drawing());
    int step = 0, finished = 0;
    for (; killed_at(step, next, payload); ++step) {
        INFO("step " << step);
        const bool is_new = archive::revisions_in(record).size() == 2;
        if (is_new) CHECK(archive::bag_faults(next).empty());
        finished += is_new ? 1 : 0;
        CHECK(archive::unfinished_in(record).size() == (is_new ? 0 : 1));
        if (step == 5)
            CHECK_THAT(archive::verification_text(verdict_of(record)),
                       Contains(": unchanged") && Contains("left by an interrupted run"));
        for (const std::string& left : archive::unfinished_in(record)) fs::remove_all(record / left);
        fs::remove_all(next);
    }
    CHECK(archive::bag_faults(record / "revision-0").empty());
    CHECK(step == static_cast<int>(payload.size()) + 6 + 2);
    CHECK(finished == 1);
}

TEST_CASE("a folder that holds something else, and a disk that fails, leave no record") {
    const TemporaryFolder folder;
    folder.file("letter.txt", "something else");
    CHECK_THROWS_WITH(archive::write_record(Drawn(smallest).drawing(), folder.path(), [](std::string_view) {}), Contains("not a record"));
    CHECK_THROWS_AS(archive::write_record(Drawn(smallest).drawing(), "/dev/null/record", [](std::string_view) {}), files::OutputFailed);
    CHECK(files_under(folder.path()) == std::set<std::string>{"letter.txt"});
}

TEST_CASE("names that some file system cannot hold are refused in a record") {
    for (const char* name : {"trace.csv", "r\u00e9sultat 1.csv", "a(b).txt"}) CHECK(archive::is_safe_name(name));
    for (const char* name : {"", ".hidden", "-rf", "a:b", "a/b", "..", "NUL.csv", "com1", "a.", "a ", "a\nb", "50%25.csv", "a*"})
        CHECK_FALSE(archive::is_safe_name(name));
    Drawn made(traced);
    made.document.side_files.front().name = "aux.csv";
    CHECK_THROWS_WITH(archive::payload_of(made.drawing()), Contains("aux.csv"));
}
