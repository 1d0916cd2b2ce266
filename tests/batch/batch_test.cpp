#include "batch/journal.hpp"
#include "batch/manifest.hpp"
#include "batch/outcome.hpp"
#include "batch/shard.hpp"
#include "support/run.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <map>

namespace {

using namespace wayfolio;
using Catch::Matchers::Contains;

std::vector<batch::Job> jobs_of(const std::string& text) { return batch::read_manifest(text, "jobs.jsonl", "/folder", {}); }

/// The places of all faults, one a line.
std::string faults_of(const std::string& text) {
    std::string lines;
    try {
        jobs_of(text);
    } catch (const input::InputRejected& rejected) {
        for (const input::Problem& problem : rejected.problems()) lines += input::to_text(problem) + "\n";
    }
    return lines;
}

}  // namespace

TEST_CASE("a line of a manifest is a job, with what it does not say as it is said for all") {
    const std::vector<batch::Job> jobs = jobs_of(
        "{\"document\": \"a.json\"}\r\n\n"
        "{\"document\": \"sub/b.json\", \"name\": \"c\", \"layout\": \"own.json\", \"paper\": \"Letter\", "
        "\"outputs\": [\"evaluation\"]}\n  \n{\"document\": \"/x/d.json\", \"layout\": \"summary\"}");
    REQUIRE(jobs.size() == 3);
    CHECK(jobs[0].name == "a");
    CHECK(jobs[0].from == "/folder/a.json");
    CHECK(jobs[0].layout.empty());
    CHECK((jobs[0].wanted.report && !jobs[0].wanted.evaluation));
    CHECK(jobs[1].name == "c");
    CHECK(jobs[1].layout == "/folder/own.json");
    CHECK(jobs[1].paper == "Letter");
    CHECK((!jobs[1].wanted.report && jobs[1].wanted.evaluation));
    CHECK(jobs[2].from == "/x/d.json");
    CHECK(jobs[2].layout == "summary");
}

TEST_CASE("all faults of a manifest are told at once, each by its line") {
    const std::string told = faults_of(
        "{\"document\": 5}\n{\"dokument\": \"x\"}\n{\"document\": \"a/b.json\"}\n{\"document\": \"c/B.json\"}\n"
        "{\"document\": \"x.json\", \"paper\": \"A3\"}\n{\"document\": \"..\"}\n{\"document\": \"y.json\", "
        "\"outputs\": [\"figures\"]}\n[]\n{");
    for (const char* place :
         {"jobs.jsonl:1:14: /document", "jobs.jsonl:2:2: /dokument", "jobs.jsonl:4:1: /name: found the name \"B\" again", "than in line 3",
          "jobs.jsonl:5:33: /paper", "jobs.jsonl:6:1: /name", "jobs.jsonl:7:35: /outputs", "jobs.jsonl:8:1", "jobs.jsonl:9:2"})
        CHECK_THAT(told, Contains(place));
    CHECK(jobs_of("").empty());
    CHECK(faults_of("\n# A text\nof many\nlines\n") ==
          "jobs.jsonl:2:1: found no JSON; expected a manifest: a job on each line, as {\"document\": \"NAME.json\"}\n");
    CHECK_THAT(faults_of("{\n \"format\": \"wayfolio-result\",\n \"series\": []\n}\n"),
               Contains("one JSON text over several lines") && Contains("wayfolio report") && !Contains("jobs.jsonl:2"));
}

TEST_CASE("each job belongs to one shard, and jobs that are added move none of the others") {
    std::map<std::size_t, std::size_t> sizes;
    for (int i = 0; i < 4000; ++i) {
        const std::string name = fmt::format("WF-{:04}", i);
        std::size_t owners = 0;
        for (std::size_t index = 0; index < 8; ++index)
            if (batch::belongs(name, {index, 8})) {
                ++owners;
                ++sizes[index];
            }
        REQUIRE(owners == 1);
    }
    for (const auto& [index, size] : sizes) {
        CAPTURE(index);
        CHECK(size > 400);  // 500 on average, sigma 21
        CHECK(size < 600);
    }
    // From SHA-256 of the name (FIPS 180-4), by coreutils: sha256sum | cut -c-15, modulo 8.
    CHECK(batch::belongs("WF-1001", {2, 8}));
    CHECK(batch::belongs("anything", {}));
}

TEST_CASE("a shard is read from words and from what a scheduler says, or refused") {
    CHECK(batch::shard_of("3/8") == batch::Shard{3, 8});
    for (const char* wrong : {"", "8/8", "1", "-1/4", "1/0", "a/b", "1/4x", "0x1/4", "1/ 4"}) CHECK_FALSE(batch::shard_of(wrong));
    const auto slurm = [](const char* name) -> const char* {
        return name == std::string_view("SLURM_ARRAY_TASK_ID") ? "7" : name == std::string_view("SLURM_ARRAY_TASK_MIN") ? "5" : "4";
    };
    CHECK(batch::slurm_shard(slurm) == batch::Shard{2, 4});
    const auto stepped = [](const char* name) -> const char* {
        return name == std::string_view("SLURM_ARRAY_TASK_ID") ? "10" : name == std::string_view("SLURM_ARRAY_TASK_MIN") ? "0" : "6";
    };
    CHECK_FALSE(batch::slurm_shard(stepped));
    const auto nothing = [](const char*) -> const char* { return nullptr; };
    CHECK_FALSE(batch::slurm_shard(nothing));
    CHECK(batch::kubernetes_shard([](const char*) -> const char* { return "2"; }, 4) == batch::Shard{2, 4});
    CHECK_FALSE(batch::kubernetes_shard(nothing, 4));
}

TEST_CASE("an outcome comes back from its line, and half a line is none") {
    batch::Outcome outcome{.name = "a \"b\"",
                           .state = batch::State::Done,
                           .key = {"f", "d", "l", "o", "v"},
                           .files = {{"a.pdf", "00ff", 12}},
                           .changed = {"/x: 1; evaluated again: 2"},
                           .changes = 7};
    const batch::Outcome faulty{
        .name = "b", .state = batch::State::Faulty, .faults = {{"b.json", {3, 4, "/x"}, "5", "a text", "quotes"}, {"", {}, "1", "2", ""}}},
        failed{.name = "c", .state = batch::State::Failed, .reason = "the disk is full"};
    for (const batch::Outcome& one : {outcome, faulty, failed})
        CHECK(batch::to_line(*batch::from_line(batch::to_line(one))) == batch::to_line(one));
    const std::string line = batch::to_line(outcome);
    const auto back = batch::from_line(line);
    REQUIRE(back);
    CHECK(back->name == outcome.name);
    CHECK(back->key == outcome.key);
    REQUIRE(back->files.size() == 1);
    CHECK(back->files[0].sha256 == "00ff");
    CHECK(back->files[0].bytes == 12);
    CHECK(line.find('\n') == std::string::npos);
    for (std::size_t cut = 0; cut < line.size(); ++cut) CHECK_FALSE(batch::from_line(line.substr(0, cut)));
    for (const char* wrong : {"[]", "5", "{\"name\": 5, \"state\": \"done\"}", "{\"name\": \"a\", \"state\": \"well\"}",
                              "{\"name\": \"\", \"state\": \"done\"}"})
        CHECK_FALSE(batch::from_line(wrong));
    CHECK(batch::difference(outcome.key, outcome.key).empty());
    batch::Key other = outcome.key;
    other.document = other.versions = "x";
    CHECK(batch::difference(outcome.key, other) == "another document, another version or build of the program or its libraries");
}
