#include "report/blocks/blocks.hpp"
#include "report/words/passages.hpp"

#include "document/read_document.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;

namespace {

const std::filesystem::path source = WAYFOLIO_SOURCE_FOLDER;

struct Job : support::Reported {
    [[nodiscard]] report::Answer answer() const { return report::answer(subject()); }
};

Job two_axes_and_square(double limit_urad) {
    Job job{document::read_document(source / "tests/golden/awkward/two-axes-and-square.json")};
    job.document.squareness.at(0).tolerance->limit = units::microradian(limit_urad);
    job.evaluation = evaluate::evaluate(job.document);
    return job;
}

std::string all_words(const std::vector<report::Text>& texts) {
    std::string words;
    for (const auto& text : texts) words += text.words() + "\n";
    return words;
}

}  // namespace

TEST_CASE("a failed squareness is told in the lead, in what failed and in what to do next") {
    const auto answer = two_axes_and_square(0.001).answer();
    CHECK(answer.opening.lead.words().find("Squareness of X and Y is outside") != std::string::npos);
    CHECK(all_words(answer.what_failed).find("Squareness of X and Y (EC0Y)") != std::string::npos);
    CHECK(all_words(answer.what_next).find("After any adjustment measure again") != std::string::npos);
    CHECK(answer.rows.back().verdict.symbol == report::VerdictSymbol::Outside);
}

TEST_CASE("a kept squareness counts among the quantities inside their limits") {
    const auto answer = two_axes_and_square(1e6).answer();
    CHECK(answer.opening.lead.words().find("outside") == std::string::npos);
    CHECK(answer.rows.back().name == "Squareness");
    CHECK(answer.rows.back().verdict.symbol == report::VerdictSymbol::Inside);
}

TEST_CASE("the first page names a known bias that nobody corrected, and the page of the series a correction that was asked for") {
    auto series = support::series("EXX", {0, 1000, 2000}, {{0, 4, 7}, {0, 4, 7}}, {{0, 4, 7}, {0, 4, 7}});
    series.instrument = "laser";
    series.air_correction = document::AirCorrection{true, "Ciddor", 20, 1000, 0};  // of 1 000 hPa: 3.556 µm/m too long
    Job job{support::document(series)};
    document::Instrument laser;
    laser.id = "laser";
    laser.positioning = document::StatedCapability{0.2, 0.6};
    job.document.instruments = {laser};
    job.document.environment.emplace().samples = {{"2026-05-11T08:00Z", 20, 1013.25, 0, 450, {}}};
    job.evaluation = evaluate::evaluate(job.document);
    CHECK(support::says(job.answer().opening.body.words(), "Not corrected in EXX: the air values that the instrument took, "
                                                           "+7.1\u202fµm over the travel; U is enlarged by it."));
    job.document.evaluation.air_correction = document::AirCorrectionRequest::FromRecord;
    job.evaluation = evaluate::evaluate(job.document);
    CHECK_FALSE(support::says(job.answer().opening.body.words(), "Not corrected"));
    const auto views = report::series_views(job.subject());
    const std::string words = report::air_correction_words(views[0], "E").words();
    CHECK(support::says(words, "Corrected for the air of the record, as asked for: \u22123.6\u202fµm/m from 0.00\u202fm; without it E is 7.0"));
}

TEST_CASE("the first page tells of checks of the set-up that are outside and of warnings, and where they stand") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.evaluation = evaluate::evaluate(job.document);
    REQUIRE(!job.evaluation.setup.empty());
    job.evaluation.setup.front().outcome = evaluate::SetupVerdict::Pass;
    job.evaluation.warnings.clear();
    const std::string sound = job.answer().opening.body.words();
    CHECK(sound.find("set-up") == std::string::npos);
    job.evaluation.setup.front().outcome = evaluate::SetupVerdict::Fail;
    job.evaluation.warnings = {{evaluate::FindingCode::ReferenceNotAlongAxis, "/setup", "the beam is not along the axis"},
                               {evaluate::FindingCode::CertificateExpired, "/setup", "the certificate is out of date"}};
    CHECK(job.answer().opening.body.words() ==
          sound + " One check of the set-up is outside. Two warnings stand under Conditions and set-up.");
    job.layout = layouts::read_layout("summary", "A4");
    CHECK(job.answer().opening.body.words() == sound + " One check of the set-up is outside. Two warnings stand in the whole report.");
}

TEST_CASE("a failed local limit shows in its quantity's row, not only in the words") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    for (auto& tolerance : job.document.series.at(1).tolerances) {
        if (tolerance.parameter == "local") tolerance.limit = units::micrometre(0.001);
    }
    job.evaluation = evaluate::evaluate(job.document);
    const auto row = job.answer().rows.at(1);
    CHECK(row.verdict.symbol == report::VerdictSymbol::Outside);
    CHECK(row.detail.find("mm") != std::string::npos);
}

TEST_CASE("a value under its limit that fails by a guard band is told with that band, not as if it were past the limit") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.evaluation = evaluate::evaluate(job.document);
    const std::string words = all_words(job.answer().what_failed);
    CHECK(words.find("Reversal error\u00a0B (EXX) is 2.62\u00a0\u00b1\u202f0.60\u202f\u00b5m where 3\u202f\u00b5m is allowed: fail, as the "
                     "rule keeps it 0.60\u202f\u00b5m clear of the limit.") != std::string::npos);
}

TEST_CASE("where another parameter stands worse than the headline, the row and the lead of the quantity's page name it") {
    const Job job{document::read_document(source / "sample-results/short-axis.json")};
    const auto row = job.answer().rows.at(0);
    CHECK(row.name == "Positioning,\u00a0B");
    CHECK(row.verdict.word.words() == "Not accepted");
    const auto opening = report::positioning_opening(job.subject(), report::series_views(job.subject()).at(0), "1");
    CHECK(opening.opening.lead.words() ==
          "Positioning is inside its limit of 12\u202fµm, with 2.9\u202fµm to spare after\u00a0U. Reversal error\u00a0B is in the guard "
          "band of its limit of 3\u202fµm.");
}

TEST_CASE("what a rule leaves conditional is told in the lead as decided by less than U") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.document.evaluation.decision_rule = document::DecisionRule::NonBinary;
    job.evaluation = evaluate::evaluate(job.document);
    const std::string lead = job.answer().opening.lead.words();
    CHECK(lead.find("Reversal error\u00a0B is inside its limit by less than\u00a0U.") != std::string::npos);
    CHECK(lead.find("cannot be decided") == std::string::npos);
}

TEST_CASE("readings of one direction are answered by that direction's value") {
    const Job job{document::read_document(source / "tests/golden/awkward/one-direction.json")};
    const auto rows = job.answer().rows;
    REQUIRE(rows.size() == 3);
    CHECK(rows[1].result.words() == "2.0\u202fµm");
    CHECK(rows[2].result.words() == "24.8\u202fµrad");
}

TEST_CASE("the note under the map says by which k its uncertainties are expanded") {
    const auto note = [](const char* sample) { return all_words(Job{document::read_document(source / sample)}.answer().rows_note); };
    CHECK(note("sample-results/short-axis.json").find("k\u00a0=\u00a02 unless named otherwise") != std::string::npos);
    CHECK(note("sample-results/rotary-axis.json").find("k for 95\u202f% as named with each budget") != std::string::npos);
}
