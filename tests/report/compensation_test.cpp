#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "report/blocks/blocks.hpp"
#include "report/build.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;

namespace {

/// An axis that gains 10 µm in 400 mm and loses 2 µm at each turn.
document::Document growing_axis(double spacing, document::TableKind kind = document::TableKind::Bidirectional) {
    auto document = support::document(support::series("EXX", {0, 100, 200, 300, 400}, {{1, 3.5, 6, 8.5, 11}, {1, 3.5, 6, 8.5, 11}},
                                                      {{-1, 1.5, 4, 6.5, 9}, {-1, 1.5, 4, 6.5, 9}}));
    document::CompensationRequest request;
    request.axis = "X";
    request.series = "s";
    request.spacing = spacing;
    request.increment = 0.5;
    request.table = kind;
    document.compensation.push_back(request);
    return document;
}

struct CompensationPage : support::Reported {
    std::vector<report::Compensation> pages = report::compensations(subject());
};

std::vector<std::string> cells(const std::vector<report::Text>& row) {
    std::vector<std::string> words;
    for (const auto& cell : row) words.push_back(cell.words());
    return words;
}

}  // namespace

TEST_CASE("the lead of a compensation page predicts and asks for a new measurement") {
    const CompensationPage made{growing_axis(100)};
    REQUIRE(made.pages.size() == 1);
    // E as measured: 11 - (-1) = 12; a straight line at table points leaves nothing, the reversal of 2 is taken out whole.
    CHECK(made.pages[0].opening.lead.words() == "Predicted: E falls from 12.0 to 0.0\u202fµm; measure again.");
}

TEST_CASE("points stand in rising order with the accumulated value and its steps") {
    const CompensationPage made{growing_axis(100)};
    const auto& points = made.pages[0].points;
    REQUIRE(points.rows.size() == 5);
    CHECK(support::heads_of(points) == std::vector<std::string>{"no.", "X / mm", "µm", "step"});
    CHECK(cells(points.rows[0]) == std::vector<std::string>{"1", "0", "0.0", "\u2013"});
    CHECK(cells(points.rows[4]) == std::vector<std::string>{"5", "400", "\u221210.0", "\u22122.5"});
}

TEST_CASE("a table for each direction stands side by side under the sign of its direction") {
    const CompensationPage made{growing_axis(200, document::TableKind::Both)};
    CHECK(support::heads_of(made.pages[0].points) ==
          std::vector<std::string>{"no.", "X / mm", "µm pos.", "step", "µm neg.", "step"});
    CHECK(made.pages[0].points.rows.size() == 3);
}

TEST_CASE("the sign convention is worked through with both positions, and the caution names sign, unit and reference point") {
    const CompensationPage made{growing_axis(100)};
    std::string words;
    for (const auto* texts : {&made.pages[0].points_notes, &made.pages[0].cautions, &made.pages[0].values_notes})
        for (const auto& text : *texts) words += text.words() + "\n";
    CHECK(words.find("at 400\u202fmm the mean stands +10.0\u202fµm from its value at the reference") != std::string::npos);
    CHECK(words.find("says \u221210.0\u202fµm, and the axis is sent to 399.99\u202fmm instead of 400\u202fmm.") != std::string::npos);
    CHECK(words.find("check sign, unit, reference point and direction") != std::string::npos);
    CHECK(words.find("reversal: 2.0\u202fµm, added to the commanded position in the negative approach") != std::string::npos);
    CHECK(words.find("Predicted values are not measured.") != std::string::npos);
}

TEST_CASE("the table is drawn as steps with the sign turned, half way between its points, and what remains below") {
    const CompensationPage made{growing_axis(100)};
    const auto& plot = made.pages[0].predicted;
    REQUIRE(plot);
    CHECK(plot->alternative.starts_with("Predicted with the compensation table in use, not measured"));
    REQUIRE(made.pages[0].measured);
    CHECK(made.pages[0].measured->targets[4].one_way.positive.mean == units::Deviation(units::micrometre(11)));
    REQUIRE(made.pages[0].steps.size() == 1);
    const auto& steps = made.pages[0].steps[0];
    REQUIRE(steps.size() == 5);
    // 2.5 µm for each 100 mm, from 50 mm to 150 mm for the point at 100 mm.
    CHECK(steps[1].from.in(units::position_millimetre) == Approx(50));
    CHECK(steps[1].to.in(units::position_millimetre) == Approx(150));
    CHECK(steps[1].level.in(units::micrometre) == Approx(2.5));
    CHECK(steps[0].from.in(units::position_millimetre) == Approx(0));
    CHECK(steps[4].to.in(units::position_millimetre) == Approx(400));
    CHECK(steps[4].level.in(units::micrometre) == Approx(10));
    // The means lie on the line 0 + 0.025 x; the reversal lifts the negative approach by 2 onto the positive one, which begins at 1.
    for (const auto& target : plot->targets) CHECK(target.mean->in(units::micrometre) == Approx(1).margin(1e-9));
}

TEST_CASE("what was measured later stands beside what was predicted, and says no more than that") {
    auto document = growing_axis(100);
    document.series[0].state = "as-found";
    auto left = support::series("EXX", {0, 100, 200, 300, 400}, {{1, 1, 2, 1, 1}, {1, 1, 2, 1, 1}}, {{1, 0, 1, 1, 1}, {1, 0, 1, 1, 1}});
    left.id = "later";
    left.state = "as-left";
    document.series.push_back(left);
    const CompensationPage made{document};
    const auto& page = made.pages[0];
    CHECK(support::heads_of(page.values) == std::vector<std::string>{"µm", "as found", "predicted", "as left"});
    const auto E = std::ranges::find_if(page.values.rows, [](const auto& row) { return row[0].words() == "E"; });
    REQUIRE(E != page.values.rows.end());
    CHECK(cells(*E) == std::vector<std::string>{"E", "12.0", "0.0", "2.0"});
    CHECK(page.opening.lead.words() == "Predicted: E falls from 12.0 to 0.0\u202fµm. Measured as left: 2.0\u202fµm.");
    CHECK(page.later.size() == 5);
    CHECK(page.later[2].second.in(units::micrometre) == Approx(1.5));
    CHECK(page.values_notes[1].words().find("from where, the report does not say") != std::string::npos);
    // Without a later series there is neither column nor curve.
    const CompensationPage alone{growing_axis(100)};
    CHECK(alone.pages[0].later.empty());
    CHECK(alone.pages[0].values.columns.size() == 3);
}

TEST_CASE("a refused table has its reasons and neither figure nor points") {
    const CompensationPage made{growing_axis(900)};
    REQUIRE(made.pages.size() == 1);
    CHECK_FALSE(made.pages[0].predicted);
    CHECK(made.pages[0].points.rows.empty());
    CHECK(made.pages[0].opening.lead.words() == "No compensation table for X: the data do not support one.");
    CHECK(support::words_of(made.pages[0].sections).find("leaves fewer than two points") != std::string::npos);
}

TEST_CASE("compensation stands in the report only where the layout lists it") {
    CompensationPage made{growing_axis(100)};
    const auto has = [&] {
        const auto model = report::build({made.document, made.evaluation, made.layout});
        return std::ranges::any_of(model.blocks, [](const auto& block) { return std::holds_alternative<report::Compensation>(block); });
    };
    CHECK(has());
    std::erase(made.layout.blocks, "compensation");
    CHECK_FALSE(has());
}
