#include "archive/record/making.hpp"
#include "archive/drawings.hpp"
#include "archive/edited_pdf.hpp"
#include "certificate/certificate.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

const std::string name(produce::kept::certificate);

/// A layout that asks for the draft, in `folder`.
std::string asking_layout(const TemporaryFolder& folder, const std::string& asked = "true") {
    return folder.file(
        "own.json",
        R"({"format": "wayfolio-layout", "version": 1, "name": "own", "title": "Own", "extends": "summary", "certificate_draft": )" +
            asked + "}");
}

std::string draft_of(const Drawn& drawn) { return certificate::certificate_draft(drawn.document, drawn.evaluation).xml; }

}  // namespace

TEST_CASE("a report carries the draft where its layout asks for it, and a figure does not") {
    const TemporaryFolder folder;
    const Drawn drawn(smallest, asking_layout(folder));
    CHECK(archive::carried_files(drawn.pdf(), "job.pdf").at(name) == draft_of(drawn));
    const auto figures = produce::figure_names(drawn.document, drawn.evaluation);
    CHECK(!archive::carried_files(produce::figure_bytes(drawn.drawing(), figures.front(), {produce::FigureFormat::Pdf}), "figure.pdf")
               .contains(name));
    CHECK(!archive::carried_files(Drawn(smallest).pdf(), "job.pdf").contains(name));
    CHECK(!archive::carried_files(Drawn(smallest, asking_layout(folder, "false")).pdf(), "job.pdf").contains(name));
}

TEST_CASE("any PDF tool takes the draft out, and it says what it is") {
    const TemporaryFolder folder;
    const Drawn drawn(internal, asking_layout(folder));
    const std::string pdf = folder.file("job.pdf", drawn.pdf()), out = folder / "draft.xml";
    CHECK(run("pdfdetach -savefile " + name + " -o " + out + " " + pdf).code == 0);
    CHECK(file_bytes(out) == draft_of(drawn));
    CHECK_THAT(file_bytes(out), !Contains("INTERNAL"));
    const std::string listed = run("qpdf --list-attachments --verbose " + pdf).out;
    const std::string entry = listed.substr(listed.find(name));
    CHECK_THAT(entry.substr(0, entry.find("\nwayfolio-")),
               Contains("Draft of a machine-readable certificate, without signature") && Contains("text/xml"));
}

TEST_CASE("with the draft inside, a report is drawn again to the same bytes and verified") {
    const TemporaryFolder folder;
    const std::string pdf = Drawn(smallest, asking_layout(folder)).pdf();
    const archive::Making making = archive::read_making(archive::carried_files(pdf, "job.pdf"), "job.pdf");
    const archive::Remade remade = archive::remake(making);
    CHECK(archive::draw_pdf({remade.document, remade.evaluation, remade.layout, shaper()}, making) == pdf);
    const auto verdict = verdict_of(pdf);
    CHECK(verdict.sound());
    CHECK(std::ranges::count(verdict.checks, "draft of the certificate, recreated", &archive::Check::what) == 1);
}

TEST_CASE("a draft that was changed, taken out or put in is told") {
    const TemporaryFolder folder;
    const Drawn drawn(smallest, asking_layout(folder));
    const std::string pdf = drawn.pdf();
    CHECK_THAT(faults(verdict_of(with_carried(pdf, name, with(draft_of(drawn), "<si:value>", "<si:value>1")))),
               Contains(name + ": changed"));
    CHECK_THAT(faults(verdict_of(with_carried(pdf, name, ""))), Contains(name + ": missing, though the layout asks for it"));
    CHECK_THAT(faults(verdict_of(with_carried(Drawn(smallest).pdf(), name, draft_of(drawn)))),
               Contains(name + ": added; the layout asks for none"));
}

TEST_CASE("a record holds the draft where the layout asks for it, and is verified with it") {
    const TemporaryFolder folder;
    const Drawn drawn(smallest, asking_layout(folder));
    const fs::path record = folder.path() / "record", draft = record / "revision-0/data/certificate-draft.xml";
    archive::write_record(drawn.drawing(), record, [](std::string_view) {});
    CHECK(file_bytes(draft) == draft_of(drawn));
    CHECK(verdict_of(record).sound());
    CHECK_THAT(file_bytes(record / "revision-0/data/ro-crate-metadata.json"), Contains("Draft of a machine-readable certificate"));
    std::ofstream(draft, std::ios::app) << " ";
    CHECK_THAT(faults(verdict_of(record)), Contains("certificate-draft.xml"));
    const TemporaryFolder other;
    const fs::path without = record_in(other) / "revision-0/data";
    CHECK(fs::exists(without / "report.pdf"));
    CHECK(!fs::exists(without / "certificate-draft.xml"));
}
