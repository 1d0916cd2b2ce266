#include "report/blocks/blocks.hpp"
#include "report/words/names.hpp"
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

/// The first row with that second line, and that name where one is given.
report::QuantityRow row_of(const report::Answer& answer, const std::string& detail, const std::string& name = "") {
    for (const report::QuantityRow& row : answer.rows)
        if (row.detail == detail && (name.empty() || row.name.words() == name)) return row;
    FAIL("no row " << detail);
    return {};
}

}  // namespace

TEST_CASE("a failed squareness is told in the lead, in its row and in what to do next") {
    const auto answer = two_axes_and_square(0.001).answer();
    CHECK(answer.opening.lead.words().find("Squareness error of X and Y is outside") != std::string::npos);
    CHECK(answer.rows.back().detail == "EC0Y, X and Y");
    CHECK(answer.rows.back().verdict.margin.words().find("\u202fµrad over, ") != std::string::npos);
    CHECK(all_words(answer.what_next).find("After any adjustment measure again") != std::string::npos);
    CHECK(answer.rows.back().verdict.standing == report::Standing::Outside);
}

TEST_CASE("a kept squareness counts among the quantities inside their limits") {
    const auto answer = two_axes_and_square(1e6).answer();
    CHECK(answer.opening.lead.words().find("outside") == std::string::npos);
    CHECK(answer.rows.back().name.words() == "Squareness error");
    CHECK(answer.rows.back().verdict.standing == report::Standing::Inside);
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
    const auto weakened = [&] {
        std::string words;
        for (const auto& weakness : job.answer().weaknesses) words += weakness.sentence.words() + "|";
        return words;
    };
    CHECK(support::says(weakened(), "Not corrected in EXX: the air values that the instrument took, +7.1\u202fµm over the travel; U is "
                                    "enlarged by it"));
    job.document.evaluation.air_correction = document::AirCorrectionRequest::FromRecord;
    job.evaluation = evaluate::evaluate(job.document);
    CHECK_FALSE(support::says(weakened(), "Not corrected"));
    const auto views = job.subject().views;
    const std::string words = report::air_correction_words(views[0], "E").words();
    CHECK(
        support::says(words, "Corrected for the air of the record, as asked for: \u22123.6\u202fµm/m from 0\u202fmm; without it E is 7.0"));
    auto in_inches = views[0];
    in_inches.shown.position = units::position_inch;
    in_inches.shown.unit = units::microinch;
    CHECK(support::says(report::air_correction_words(in_inches, "E").words(), "as asked for: \u22123.6\u202fµin/in from 0\u202fin"));
}

TEST_CASE("the first page tells of checks of the set-up that are outside and of warnings, and where they stand") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.evaluation = evaluate::evaluate(job.document);
    REQUIRE(!job.evaluation.setup.empty());
    job.evaluation.setup.front().outcome = evaluate::SetupVerdict::Pass;
    job.evaluation.warnings.clear();
    const std::string sound = job.answer().opening.body.words();
    const auto failed_checks = [&] {
        std::string words;
        for (const auto& weakness : job.answer().weaknesses)
            if (weakness.destination == "set-up") words += weakness.sentence.words();
        return words;
    };
    CHECK(failed_checks().empty());
    job.evaluation.setup.front().outcome = evaluate::SetupVerdict::Fail;
    job.evaluation.warnings = {{evaluate::FindingCode::ReferenceNotAlongAxis, "/setup", "the beam is not along the axis"},
                               {evaluate::FindingCode::CertificateExpired, "/setup", "the certificate is out of date"}};
    const auto& check = job.document.setup->checks.at(job.evaluation.setup.front().check);
    CHECK(failed_checks().find("One set-up check failed: " + report::uncapitalised(check.name)) == 0);
    CHECK(job.answer().opening.body.words() == sound + " See the two warnings under Conditions.");
    job.layout = layouts::read_layout("summary", "A4");
    CHECK(job.answer().opening.body.words() == sound + " See the two warnings in the whole report.");
}

TEST_CASE("a failed local limit has a row of its own, with the ends of its window as dots on the curve") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    for (auto& tolerance : job.document.series.at(1).tolerances) {
        if (tolerance.parameter == "local") tolerance.limit = units::micrometre(0.001);
    }
    job.evaluation = evaluate::evaluate(job.document);
    const auto row = row_of(job.answer(), "EYX, over 300\u202fmm");
    CHECK(row.verdict.standing == report::Standing::Outside);
    CHECK(row.curve.settings.size() == 2);
}

TEST_CASE("a value under its limit that fails by a guard band is told with that band, not as if it were past the limit") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.evaluation = evaluate::evaluate(job.document);
    CHECK(row_of(job.answer(), "EXX, positioning", "Reversal error,\u00a0B").verdict.margin.words() ==
          "0.38\u202fµm under, less than\u00a0U");
}

TEST_CASE("where another parameter stands worse than the headline, its row and the lead of the quantity's page name it") {
    const Job job{document::read_document(source / "sample-results/short-axis.json")};
    const auto row = row_of(job.answer(), "EXX, positioning", "Reversal error,\u00a0B");
    CHECK(row.verdict.word.words() == "Not accepted");
    const auto opening = report::positioning_opening(job.subject(), job.subject().views.at(0));
    // In sentences with margins it would take three lines.
    CHECK(opening.opening.lead.words() == "A, E, R and M are inside their limits; B is not accepted.");
}

TEST_CASE("what a rule leaves conditional is told in the lead as decided by less than U") {
    Job job{document::read_document(source / "sample-results/short-axis.json")};
    job.document.evaluation.decision_rule = document::DecisionRule::NonBinary;
    job.evaluation = evaluate::evaluate(job.document);
    const std::string lead = job.answer().opening.lead.words();
    CHECK(lead.find("All twelve values are inside their limits. Reversal error\u00a0B is inside by less than\u00a0U.") !=
          std::string::npos);
    CHECK(lead.find("cannot be decided") == std::string::npos);
}

TEST_CASE("readings of one direction are answered by that direction's value") {
    const Job job{document::read_document(source / "tests/golden/awkward/one-direction.json")};
    const auto rows = job.answer().rows;
    REQUIRE(rows.size() == 3);
    CHECK(rows[1].result_with_unit.words() == "2.0\u202fµm");
    CHECK(rows[2].result_with_unit.words() == "24.8\u202fµrad");
}

TEST_CASE("the note under the map says by which k its uncertainties are expanded") {
    const auto note = [](const char* sample) { return all_words(Job{document::read_document(source / sample)}.answer().rows_note); };
    CHECK(note("sample-results/short-axis.json").find("k\u00a0=\u00a02 unless named otherwise") != std::string::npos);
    CHECK(note("sample-results/rotary-axis.json").find("k for 95\u202f% as named with each budget") != std::string::npos);
}

namespace {

Job awkward(const char* name) { return {document::read_document(source / "tests/golden/awkward" / name)}; }

std::vector<std::string> words_of_weaknesses(const report::Answer& answer) {
    std::vector<std::string> words;
    for (const auto& weakness : answer.weaknesses) words.push_back(weakness.sentence.words());
    return words;
}

}  // namespace

TEST_CASE("the lead counts values and names those that are not inside, worst first") {
    // Too long with names: what is outside is counted before three lines become four.
    CHECK(awkward("outcomes-guard-band.json").answer().opening.lead.words() ==
          "Two of six values are inside their limits. Two are outside; systematic positioning error\u00a0E is not accepted; reversal "
          "error\u00a0B is not evaluated.");
    CHECK(awkward("outcomes-both-sides.json").answer().opening.lead.words() ==
          "One of four values is inside its limit. Positioning, systematic positioning error\u00a0E and repeatability of "
          "positioning\u00a0R are undecided.");
}

TEST_CASE("where no limit is set the lead says which value is the largest, and where") {
    const std::string lead = awkward("eight-series.json").answer().opening.lead.words();
    CHECK(lead.find("Six quantities were measured; no limit is set. The largest deviation of three is ") == 0);
    CHECK(lead.find(", set at 0\u202fmm and ") != std::string::npos);
}

TEST_CASE("what was measured only in an earlier state stands on the first page, with that state") {
    const auto answer = awkward("eight-series.json").answer();
    REQUIRE(answer.rows.size() == 6);
    CHECK(answer.rows[0].detail == "EXX, error of position");
    CHECK(answer.rows[1].detail == "EYX, as found");
    const auto judged = awkward("outcomes-guard-band.json").answer();
    CHECK(std::ranges::any_of(judged.rows, [](const auto& row) { return row.detail == "EYX, as found"; }));
}

TEST_CASE("a stated value is judged as stated, and a series of stated values alone has no curve") {
    const Job job = awkward("outcomes-guard-band.json");
    const auto answer = job.answer();
    const auto row = std::ranges::find_if(answer.rows, [](const auto& one) { return one.detail.find("EZX") == 0; });
    REQUIRE(row != answer.rows.end());
    CHECK(row->curve.empty());
    CHECK(row->result_with_unit.words() == "2.10\u00a0±\u202f0.50\u202fµm");
    CHECK(row->detail == "EZX, as stated");
    CHECK(row->verdict.standing == report::Standing::Inside);
    CHECK(row->verdict.margin.words() == "1.40\u202fµm to spare after\u00a0U");
    // Nor is a line named that nothing was drawn about.
    const auto views = job.subject().views;
    const auto stated = std::ranges::find_if(views, [](const auto& view) { return view.series.id == "x-ezx-left"; });
    REQUIRE(stated != views.end());
    const auto page = report::panels(job.subject(), std::vector{*stated});
    CHECK(page.opening.body.words() == "The values are as stated; there are no readings to draw.");
    CHECK(report::mean_curve_of(page.panels.at(0).plot).empty());
}

TEST_CASE(
    "what weakens a verdict: coverage, scatter, failed checks, contributors that U lacks, in that order; nothing where nothing does") {
    const auto words = words_of_weaknesses(awkward("weak-verdict.json").answer());
    REQUIRE(words.size() == 4);
    CHECK(words[0].find("The coverage of U is about ") == 0);
    CHECK(words[0].find("not 95\u202f%") != std::string::npos);
    CHECK(words[1].find("Random variation makes ") == 0);
    CHECK(words[2] == "One set-up check failed: beam offset over the travel, X, 2.1\u202fmm, at most 1.5\u202fmm");
    CHECK(words[3].find(" expected input quantities are missing in U: drift record of axis X at rest, ") != std::string::npos);
    Job sound = awkward("weak-verdict.json");
    for (auto& entry : sound.evaluation.uncertainty) {
        entry.coverage = 0.945;
        entry.interval.reset();
    }
    sound.evaluation.setup.clear();
    sound.evaluation.lacking.clear();
    CHECK(words_of_weaknesses(sound.answer()).empty());
}

TEST_CASE("what to do next names what would change the verdict: how small U, which of its contributors, or the error and where") {
    const std::string words = all_words(awkward("outcomes-both-sides.json").answer().what_next);
    CHECK(words.find("Repeatability of positioning\u00a0R is inside once it is smaller by 1.9\u202fµm; it is set at ") !=
          std::string::npos);
    CHECK(words.find("Positioning is inside once U is no more than 0.40\u202fµm; it is 0.80\u202fµm.") != std::string::npos);
    CHECK(words.find("Systematic positioning error\u00a0E is inside once it is smaller by 0.90\u202fµm; it is set at 0\u202fmm and "
                     "400\u202fmm.") != std::string::npos);
    // 2.5 µm under its limit of 12 µm: with U = 2.5 µm or less the value would be inside.
    Job job{document::read_document(source / "sample-results/long-axis.json")};
    CHECK(all_words(job.answer().what_next)
              .find("Positioning is inside once U is no more than 2.5\u202fµm; it is 4.9\u202fµm.") != std::string::npos);
}

TEST_CASE("the largest contributor that is said to be enough really is: U falls to the bound with it") {
    Job job = awkward("weak-verdict.json");
    const auto& entry = *evaluate::find_uncertainty(job.evaluation, "x-exx", "A");
    const double value = job.evaluation.decisions.at(0).value->in(units::micrometre), U = entry.expanded.in(units::micrometre);
    // Short of the limit by nine tenths of U.
    job.document.series.at(0).tolerances.at(0).limit = units::micrometre(value + 0.9 * U);
    job.evaluation = evaluate::evaluate(job.document);
    const std::string words = all_words(job.answer().what_next);
    CHECK(words.find("Positioning is inside once U is no more than ") != std::string::npos);
    const auto& lines = evaluate::find_uncertainty(job.evaluation, "x-exx", "A")->contributors;
    const auto largest = std::ranges::max_element(lines, {}, &evaluate::BudgetLine::share);
    CHECK(words.find("For that its largest contribution, " + largest->name + ", has to fall from ") != std::string::npos);
}

TEST_CASE("no limit is said to be on a parameter that has none") {
    Job job = awkward("outcomes-both-sides.json");
    job.document.series.at(0).tolerances.erase(job.document.series.at(0).tolerances.begin());  // that on A
    job.evaluation = evaluate::evaluate(job.document);
    const auto lead = report::positioning_opening(job.subject(), job.subject().views.at(0)).opening.lead.words();
    CHECK(lead.find("no limit is set for A. ") != std::string::npos);
    CHECK(lead.find("no limit is set.") == std::string::npos);
}
