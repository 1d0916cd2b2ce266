#include "report/words/passages.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

document::SetupCheck offset(double position, double reading) {
    document::SetupCheck check;
    check.name = position == 0 ? "beam offset, near end" : "beam offset, far end";
    check.axis = "X";
    check.unit = "mm";
    check.basis = "common practice";
    check.position = position;
    check.reading = reading;
    check.at_most = 1;
    return check;
}

/// X of 1 m with U(E) stated, and the beam's offsets at its ends.
support::Reported aligned(double near, double far, double U_um = 2) {
    auto document = support::document(support::series("EXX", {0, 500, 1000}, {{0, 1, 2}, {0, 1, 2.2}}, {{0, 1, 2}, {0, 1, 2.1}}));
    support::add_axis(document, "X", 0, 1000);
    document.setup.emplace().checks = {offset(0, near), offset(1000, far)};
    document.uncertainty.stated.push_back({.series = "s",
                                           .parameter = "E",
                                           .expanded = units::Deviation(units::micrometre(U_um)),
                                           .unit = units::micrometre,
                                           .coverage_factor = 2});
    return {.document = std::move(document)};
}

std::string setup_words(const support::Reported& reported) {
    return support::words_of(report::setup_sections(reported.subject()));
}

}  // namespace

TEST_CASE("every check stands with reading, limit, verdict and the basis of its limit") {
    const std::string words = setup_words(aligned(0.1, 1.1));
    CHECK_THAT(words, Contains("Check|reading|limit|verdict|basis of the limit|"));
    CHECK_THAT(words, Contains("Beam offset, near end, X at 0\u202fmm|0.1\u202fmm|at most 1\u202fmm|inside|common practice, no source|"));
    CHECK_THAT(words,
               Contains("Beam offset, far end, X at 1\u202f000\u202fmm|1.1\u202fmm|at most 1\u202fmm|outside|common practice, no source|"));
}

TEST_CASE("the cosine error stands over the travel and per metre, and warns above a tenth of U(E)") {
    // 1 mm in 1 m is 1 mrad: 0.5 µm over 1 m, always short (L theta^2 / 2, exact to second order).
    const std::string words = setup_words(aligned(0.1, 1.1));
    CHECK_THAT(words, Contains("X|1\u202f000|1\u202f000\u202fmm|0.50|0.50|0.20|exceeds it|"));
    CHECK_THAT(words, Contains("Axis X: the cosine error exceeds a tenth of U(E), which is 2.0\u202fµm."));
    CHECK_THAT(setup_words(aligned(0.1, 0.4)), Contains("X|300|1\u202f000\u202fmm|0.045|0.045|0.20|below it|"));
}

TEST_CASE("offsets read on the returning beam say so, and that half of them enters") {
    auto reported = aligned(0.2, 1.2);
    for (auto& check : reported.document.setup->checks) check.read_on = document::ReadOn::ReturningBeam;
    reported.evaluation = evaluate::evaluate(reported.document);
    const std::string words = setup_words(reported);
    CHECK_THAT(words, Contains("Beam offset, near end, X at 0\u202fmm, on the returning beam|0.2\u202fmm|"));
    CHECK_THAT(words, Contains("X|500|1\u202f000\u202fmm|0.12|0.12|0.20|below it|"));  // 0.5 mrad: a little less than 0.125 µm
    CHECK_THAT(words, Contains("Offsets read on the returning beam are twice those of the beam: half of them enters here."));
    CHECK_THAT(setup_words(aligned(0.2, 1.2)), !Contains("returning"));
}

TEST_CASE("offsets that cannot resolve the angle say what they leave open") {
    // Both read 0.5 mm to a tenth: 0.05 + 0.05 mm in 1 m leave 0.1 mrad, 0.005 µm.
    const std::string words = setup_words(aligned(0.5, 0.5));
    CHECK_THAT(words, Contains("X|\u2013|1\u202f000\u202fmm|up to 0.0050|\u2013|0.20|not resolved|"));
    CHECK_THAT(words, Contains("Axis X: the offsets cannot resolve the angle. Their last digits leave up to 0.0050\u202fµm of cosine error "
                               "open."));
}

TEST_CASE("a check without a limit is not decided, with the reason") {
    auto reported = aligned(0.1, 0.4);
    reported.document.setup->checks[1].at_most.reset();
    reported.evaluation = evaluate::evaluate(reported.document);
    CHECK_THAT(setup_words(reported), Contains("|0.4\u202fmm|\u2013|not evaluated: no limit is stated|"));
}
