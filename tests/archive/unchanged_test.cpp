#include "archive/drawings.hpp"
#include "archive/edited_pdf.hpp"
#include "archive/verify/pdf_content.hpp"
#include "archive/verify/unchanged.hpp"
#include "input/digest.hpp"
#include "support/hostile_pdf.hpp"

#include <catch2/catch.hpp>

#include <ctime>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

/// The smallest document with another reading.
std::string other_document() { return with(file_bytes(smallest), "2.2", "9.9"); }

std::string revised(int revision, int replaces) {
    return with(file_bytes(smallest), "\"job\": {",
                "\"job\": {\"revision\": " + std::to_string(revision) + ", \"replaces\": {\"revision\": " + std::to_string(replaces) +
                    R"(, "reason": "a limit was wrong"}, )");
}

void write(const fs::path& path, const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }

}  // namespace

TEST_CASE("nothing is drawn from a document that was put in the place of the kept one") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    CHECK_NOTHROW(archive::unchanged_from(record));
    write(record / "revision-0/data/inputs/wayfolio-result.json", other_document());
    CHECK_THROWS_WITH(archive::unchanged_from(record), Contains("data/inputs/wayfolio-result.json") && Contains("changed"));
    const std::string pdf = Drawn(smallest).pdf();
    CHECK_NOTHROW(archive::unchanged_from(folder.file("good.pdf", pdf)));
    const std::string swapped = with_carried(pdf, "wayfolio-result.json", other_document());
    CHECK_THROWS_WITH(archive::unchanged_from(folder.file("bad.pdf", swapped)), Contains("wayfolio-result.json: changed"));
    // With a list that fits it, the file still states the fingerprint of the list that it was drawn from.
    const std::string list = with(archive::carried_files(pdf, "x").at("wayfolio-inputs.json"), input::sha256_hex(file_bytes(smallest)),
                                  input::sha256_hex(other_document()));
    CHECK_THROWS_WITH(archive::unchanged_from(folder.file("worse.pdf", with_carried(swapped, "wayfolio-inputs.json", list))),
                      Contains("fingerprint that the file states"));
}

TEST_CASE("a report that is damaged in a record can be drawn again from it") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    write(record / "revision-0/data/report.pdf", "damaged");
    CHECK_NOTHROW(archive::unchanged_from(record));
    CHECK_FALSE(verdict_of(record).sound());
}

TEST_CASE("a revision under the number of another is told") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    REQUIRE(verdict_of(record).sound());
    fs::rename(record / "revision-0", record / "revision-7");
    CHECK_THAT(faults(verdict_of(record)), Contains("revision-7 holds revision 0"));
    CHECK_THAT(faults(verdict_of(record / "revision-7")), Contains("revision-7 holds revision 0"));
    fs::rename(record / "revision-7", record / "kept elsewhere");
    CHECK(verdict_of(record / "kept elsewhere").sound());
}

TEST_CASE("a carried layout by which nothing can be drawn any more is a failed check, and the verdict is given") {
    const std::string pdf = Drawn(smallest, "report").pdf(), layout = archive::carried_files(pdf, "x").at("wayfolio-layout-1.json");
    for (const auto& [part, other] : std::vector<std::pair<std::string, std::string>>{
             {"\"margin_left\": ", "\"margin_left\": 9e8, \"x-was\": "}, {"\"first_baseline\": ",
                 "\"first_baseline\": 1e9, \"x-was\": "}}) {
        CAPTURE(part);
        const auto verdict = verdict_of(with_carried(pdf, "wayfolio-layout-1.json", with(layout, part, other)));
        CHECK_FALSE(verdict.sound());
        CHECK_THAT(faults(verdict), Contains("wayfolio-layout-1.json: changed"));
    }
}

TEST_CASE("a name with a line end cannot forge a line of the verdict") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    write(record / "revision-0/data/x\n  holds      everything", "");
    write(record / "added\n  holds      everything", "");
    const std::string text = archive::verification_text(verdict_of(record));
    CHECK_THAT(text, Contains("x\\n  holds      everything: added") && Contains("added\\n  holds"));
    CHECK_THAT(text, !Contains("\n  holds      everything"));
}

TEST_CASE("of two revisions that are recorded at once one wins, the other is told, and the record holds") {
    const TemporaryFolder folder;
    for (int round = 0; round < 3; ++round) {
        const fs::path record = folder.path() / std::to_string(round);
        archive::write_record(Drawn(smallest).drawing(), record, [](std::string_view) {});
        // Each begins when the other has checked the record, and draws before it moves.
        const Drawn first(document_of(revised(1, 0))), second(document_of(revised(2, 0)));
        bool second_done = false;
        const auto later = [&](std::string_view next) {
            if (next != "draw" || second_done) return;
            second_done = true;
            archive::write_record(second.drawing(), record, [](std::string_view) {});
        };
        CHECK_THROWS_WITH(archive::write_record(first.drawing(), record, later), Contains("revision 2 exists already"));
        CHECK(second_done);
        CHECK(verdict_of(record).sound());
        CHECK_FALSE(fs::exists(record / "revision-1"));
    }
}

TEST_CASE("PDFs of strangers are read in bounded time and memory, and what was too much is told", "[again]") {
    using archive::carried_files, archive::content_of;
    const std::clock_t begun = std::clock();  // of the processor: the machine may have other work
    CHECK_THROWS_WITH(carried_files(support::with_attachments(support::packed_twice(2'000'000'000), "[/FlateDecode /FlateDecode]", 1), "x"),
                      Contains("unpack to more than"));
    CHECK_THROWS_WITH(carried_files(support::with_attachments(support::deflated(std::string(1'000'000, 'a')), "/FlateDecode", 150), "x"),
                      Contains("unpack to more than"));
    // Eight series of 10 000 readings that are all 0: a report of half a megabyte carries forty.
    CHECK_NOTHROW(carried_files(support::with_attachments(support::deflated(std::string(40'000'000, 'a')), "/FlateDecode", 1), "x"));
    CHECK_THROWS_WITH(content_of(support::with_content(support::packed_twice(2'000'000'000), "[/FlateDecode /FlateDecode]"), "x"),
                      Contains("unpack to more than"));
    CHECK_THROWS_WITH(content_of(support::with_forms(18), "x"), Contains("more often than can be read"));
    CHECK_THROWS_WITH(content_of(support::with_forms(25), "x"), Contains("too deeply") || Contains("more often"));
    CHECK_NOTHROW(content_of(support::with_structure("/K [7 0 R 7 0 R]", "/P 7 0 R /K [7 0 R 7 0 R 7 0 R]"), "x"));
    CHECK_NOTHROW(content_of(support::with_outline("/First 9 0 R /Next 9 0 R"), "x"));
    CHECK((std::clock() - begun) / CLOCKS_PER_SEC < 60);  // all of them together, with sanitizers
}
