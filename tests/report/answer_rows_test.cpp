#include "report/blocks/blocks.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include "document/read_document.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>

using namespace wayfolio;
using report::RowCurve;

namespace {

const std::filesystem::path source_folder = WAYFOLIO_SOURCE_FOLDER;

std::vector<std::filesystem::path> documents() {
    std::vector<std::filesystem::path> all;
    for (const char* folder : {"sample-results", "tests/golden/awkward"})
        for (const auto& entry : std::filesystem::directory_iterator(source_folder / folder))
            if (entry.path().extension() == ".json") all.push_back(entry.path());
    std::ranges::sort(all);
    return all;
}

std::size_t count_quiet(const report::Answer& answer, bool superseded) {
    std::size_t rows = 0;
    for (const auto& some : answer.quiet)
        if (some.heading.words().starts_with("Superseded") == superseded) rows += some.rows.size();
    return rows;
}

}  // namespace

TEST_CASE("the first page has one row for each limit, and every other value of every state once in grey", "[samples]") {
    REQUIRE(documents().size() > 20);
    for (const auto& path : documents()) {
        CAPTURE(path.filename().string());
        const support::Reported job{document::read_document(path)};
        const auto subject = job.subject();
        const report::Answer answer = report::answer(subject);
        const auto answering = report::answering_series(subject);
        const std::size_t judged = report::judgements(subject, answering).size();
        if (!job.evaluation.decisions.empty()) CHECK(answer.rows.size() == judged);
        // Every value that is evaluated or stated, of A, E, R, B, M and its mean reversal, or that speaks for a quantity.
        std::size_t answering_values = 0, superseded_values = 0;
        for (const auto& view : subject.views) {
            const bool answers = report::find_view(answering, view.series.id) != nullptr;
            std::size_t& values = answers ? answering_values : superseded_values;
            values += static_cast<std::size_t>(std::ranges::count_if(job.evaluation.decisions, [&](const auto& decision) {
                return decision.series == view.series.id && !decision.axes;
            }));
            const auto judged_here = [&](const std::string& parameter) {
                return report::find_view(subject.views, view.series.id) != nullptr &&
                       std::ranges::any_of(job.evaluation.decisions, [&](const auto& decision) {
                           return decision.series == view.series.id && decision.parameter == parameter && !decision.axes;
                       });
            };
            if (view.evaluation.kind != evaluate::SeriesKind::Positioning) {
                values += judged_here(report::headline_parameter(view.series, view.evaluation)) ? 0 : 1;
                continue;
            }
            for (const std::string symbol : {"A", "E", "R", "M", "B", "B_mean"}) {
                const bool speaks = symbol == report::headline_parameter(view.series, view.evaluation);
                if (report::known_value(view.evaluation, symbol) || speaks) {
                    values += judged_here(symbol) ? 0 : 1;
                    continue;
                }
                for (const auto approach : document::both_approaches) {
                    const std::string one = report::in_direction(symbol, approach);
                    values += report::known_value(view.evaluation, one) && !judged_here(one) ? 1 : 0;
                }
            }
        }
        const std::size_t squares = job.evaluation.squareness.size();
        CHECK(answer.rows.size() + count_quiet(answer, false) + count_quiet(answer, true) ==
              answering_values + superseded_values + squares);
        if (squares == 0) CHECK(count_quiet(answer, true) == superseded_values);
    }
}

TEST_CASE("each parameter has the curve that it is the range or the largest of, with dots where it is set") {
    const support::Reported job{document::read_document(source_folder / "sample-results/short-axis.json")};
    const report::Answer answer = report::answer(job.subject());
    std::map<std::string, RowCurve> curves;
    for (const auto& row : answer.rows)
        if (row.detail.starts_with("EXX")) curves[row.name.words()] = row.curve;
    const RowCurve A = curves.at("Positioning,\u00a0A"), E = curves.at("Positioning,\u00a0E"), R = curves.at("Repeatability,\u00a0R"),
                   B = curves.at("Reversal error,\u00a0B"), M = curves.at("Positioning,\u00a0M");
    CHECK(A.form == RowCurve::Form::Band);
    CHECK(E.form == RowCurve::Form::Means);
    CHECK(M.form == RowCurve::Form::Mean);
    CHECK(R.form == RowCurve::Form::Stems);
    CHECK(B.form == RowCurve::Form::Stems);
    CHECK(R.scale != B.scale);
    const auto value = [&](const char* parameter) { return *report::value_of_parameter(job.evaluation.series.at(0), parameter); };
    const auto span = [](const RowCurve& curve) {
        std::vector<units::Deviation> levels;
        for (const auto* points : {&curve.first, &curve.second})
            for (const auto& [at, level] : *points) levels.push_back(level);
        const auto [low, high] = std::ranges::minmax(levels);
        return high - low;
    };
    const auto apart = [](const RowCurve& curve) {
        REQUIRE(curve.settings.size() == 2);
        return abs(curve.settings[0].second - curve.settings[1].second);
    };
    // What is drawn spans the value, and its dots stand at the ends.
    for (const auto& [curve, parameter] : {std::pair(&A, "A"), {&E, "E"}, {&M, "M"}}) {
        CAPTURE(parameter);
        CHECK(span(*curve).in(units::micrometre) == Approx(value(parameter).in(units::micrometre)));
        CHECK(apart(*curve).in(units::micrometre) == Approx(value(parameter).in(units::micrometre)));
    }
    REQUIRE(R.settings.size() == 1);
    CHECK(R.settings[0].second.in(units::micrometre) == Approx(value("R").in(units::micrometre)));
    REQUIRE(B.settings.size() == 1);
    CHECK(abs(B.settings[0].second).in(units::micrometre) == Approx(value("B").in(units::micrometre)));
}

TEST_CASE("a probability that would round to certainty is told as more than 99 %, and none is told without U") {
    const support::Reported job{document::read_document(source_folder / "tests/golden/awkward/outcomes-both-sides.json")};
    bool told = false;
    for (const auto& row : report::answer(job.subject()).rows) {
        CHECK(row.probability.has_value() == !row.probability_words.empty());
        if (!row.U_of_limit) CHECK_FALSE(row.probability);
        CHECK(row.probability_words.find("100") == std::string::npos);
        told = told || row.probability.has_value();
    }
    CHECK(told);
}

TEST_CASE("where more is not inside than three lines of the lead hold, the values are counted") {
    const support::Reported job{document::read_document(source_folder / "sample-results/long-axis.json")};
    CHECK(report::answer(job.subject()).opening.lead.words() ==
          "Six of eleven values are inside their limits. Yaw is outside by 2.7\u202fµrad; four are undecided.");
}

TEST_CASE("only a laboratory whose instruments all say what they are traced through is said to be traceable") {
    support::Reported job{document::read_document(source_folder / "sample-results/short-axis.json")};
    const auto first = [&] { return report::issuer_of(job.document).value().traceability.at(0); };
    CHECK(first().starts_with("Traceable to the SI: EX-2026-0114 (laser interferometer"));
    job.document.instruments.at(1).traceable_to.clear();
    CHECK(first().starts_with("Calibration certificates: EX-2026-0114"));
    job.document.job.laboratory.reset();
    CHECK_FALSE(report::issuer_of(job.document));
}
