#include "archive/drawings.hpp"
#include "archive/verify/unchanged.hpp"
#include "input/digest.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

/// A record on the fly that is too large to travel inside a report: it is known by its digest, and lies apart.
using namespace wayfolio;
using namespace wayfolio::testing;

namespace {

std::string many_lines() {
    std::string text = "position,value\n";
    for (int i = 0; i < 600'000; ++i) text += fmt::format("{:.4f},{:.2f}\n", i / 1000.0, (i * 7919 % 2001) / 500.0 + i / 2e5);
    return text;
}

/// A folder with a document and its trace.
struct LargeJob {
    TemporaryFolder folder;
    std::string trace = many_lines();
    fs::path document = folder.file("job.json", R"({"format": "wayfolio-result", "version": 1,
        "job": {"number": "K-1", "title": "Trace", "data_notice": "Invented data"},
        "series": [{"id": "y", "error": "EYX", "unit": "um", "position_unit": "mm", "trace": {"file": "t.csv"}}]})");
    LargeJob() { folder.file("t.csv", trace); }
    [[nodiscard]] archive::Verification verdict(const std::string& pdf) const {
        return archive::verify_pdf(pdf, "job.pdf", {shaper(), "", folder.path()});
    }
};

}  // namespace

TEST_CASE("the report of a large trace states its digest, does not carry it, and is verified with it beside", "[slow]") {
    const LargeJob job;
    const std::string pdf = Drawn(job.document).pdf();
    CHECK(pdf.size() < job.trace.size() / 20);
    const auto making = archive::read_making(archive::carried_files(pdf, "job.pdf"), "job.pdf");
    CHECK(making.files.count("t.csv") == 0);
    REQUIRE(making.side_files.size() == 1);
    CHECK(making.side_files[0].apart);
    CHECK(making.side_files[0].sha256 == input::sha256_hex(job.trace));
    CHECK(faults(job.verdict(pdf)).empty());
    CHECK(job.verdict(pdf).sound());

    // Elsewhere, or where nothing may be opened, nothing is shown, and it says why.
    CHECK_FALSE(verdict_of(pdf).sound());
    CHECK(faults(verdict_of(pdf)).find("t.csv: too large to travel inside, and not beside it") != std::string::npos);

    job.folder.file("t.csv", with(job.trace, "\n300.0000,", "\n300.0001,"));
    CHECK_FALSE(job.verdict(pdf).sound());
    CHECK(faults(job.verdict(pdf)).find("t.csv: changed (its SHA-256 is not the one listed)") != std::string::npos);
}

TEST_CASE("a record holds a large trace byte for byte, and is verified and drawn again from it alone", "[slow]") {
    const LargeJob job;
    const fs::path record = record_in(job.folder, job.document), kept = record / "revision-0/data/inputs/t.csv";
    CHECK(file_bytes(kept) == job.trace);
    CHECK(faults(verdict_of(record)).empty());
    const auto making = archive::unchanged_from(record);
    const auto remade = archive::remake(making);
    CHECK(archive::draw_pdf({remade.document, remade.evaluation, remade.layout, shaper()}, making) ==
          file_bytes(record / "revision-0/data/report.pdf"));
    std::ofstream(kept, std::ios::binary) << with(job.trace, "\n300.0000,", "\n300.0001,");
    CHECK(faults(verdict_of(record)).find("data/inputs/t.csv: changed") != std::string::npos);
}
