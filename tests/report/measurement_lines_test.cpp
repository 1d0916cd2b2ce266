#include "report/blocks/blocks.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using support::says;

namespace {

document::MeasurementLine line_along_x() {
    return {.axis = "X", .at_mm = {{"Y", 250}, {"Z", -300}}, .offset_to_tool_point_mm = std::array<double, 3>{0, 0, 210}};
}

/// EXX over 0 to 1 000 mm on one line, Z upwards.
document::Document on_a_line() {
    document::Document document =
        support::document(support::series("EXX", {0, 500, 1000}, {{0, 1, 2}, {0, 1, 2.2}}, {{0, 1, 2}, {0, 1, 2.1}}));
    document.machine.emplace().vertical = "Z";
    document.setup.emplace().lines = {line_along_x()};
    document.series.front().measurement_line = 0;
    return document;
}

std::optional<report::LinesOpening> lines_of(document::Document document) {
    const support::Reported reported{.document = std::move(document)};
    return report::measurement_lines(reported.subject());
}

std::string margin_words(const report::LinesOpening& made) {
    std::string words;
    for (const auto& [name, notes] : made.margin) {
        words += name + "\n";
        for (const auto& note : notes) words += note.words() + "\n";
    }
    return words;
}

document::SetupCheck done(std::optional<bool> is_done) {
    document::SetupCheck check;
    check.name = "warm-up";
    check.done = is_done;
    return check;
}

}  // namespace

TEST_CASE("a measurement line stands where the document says, with what was measured on it") {
    const auto made = lines_of(on_a_line());
    REQUIRE(made);
    CHECK(made->opening.lead.words() == "The line ran 210\u202fmm off the functional point.");
    const report::DrawnLine& line = made->drawing.lines.at(0);
    CHECK(line.from == report::MachinePlace{0, 250, -300});
    CHECK(line.to == report::MachinePlace{1000, 250, -300});
    CHECK_FALSE(line.travel);
    CHECK_FALSE(made->drawing.volume);
    CHECK(margin_words(*made) == "1  Line along X\nAt Y\u00a0=\u00a0250\u202fmm, Z\u00a0=\u00a0\u2212300\u202fmm.\n"
                                 "Measured from 0\u202fmm to 1\u202f000\u202fmm: EXX.\nFunctional point: 210\u202fmm in Z from it.\n");
    CHECK_FALSE(says(made->caption.words(), "dashed: travel"));
}

TEST_CASE("a line whose place is open is not drawn: its words stay with the set-up") {
    const auto changed = [](auto change) {
        document::Document document = on_a_line();
        change(document);
        return document;
    };
    // Where Z stood is not said, nor which axis is upright, nor anything but a part's own axes.
    CHECK_FALSE(lines_of(changed([](auto& document) { document.setup->lines[0].at_mm.pop_back(); })));
    CHECK_FALSE(lines_of(changed([](auto& document) { document.machine->vertical.clear(); })));
    CHECK_FALSE(lines_of(changed([](auto& document) { document.machine->vertical = "W"; })));
    CHECK_FALSE(lines_of(changed([](auto& document) { document.machine.reset(); })));
    CHECK_FALSE(lines_of(changed([](auto& document) { document.setup.reset(); })));
    // Lines that cannot be told apart, and a line on which nothing was read.
    CHECK_FALSE(lines_of(changed([](auto& document) {
        document.setup->lines.assign(7, line_along_x());
        const auto series = document.series.front();
        document.series.clear();
        for (std::size_t i = 0; i < 7; ++i) {
            document.series.push_back(series);
            document.series.back().id = "s" + std::to_string(i);
            document.series.back().measurement_line = i;
        }
    })));
    CHECK_FALSE(lines_of(changed([](auto& document) {
        document.setup->lines.push_back(line_along_x());
        document.series.front().measurement_line.reset();
    })));
    const support::Reported open{.document = changed([](auto& document) { document.machine->vertical.clear(); })};
    CHECK(says(support::words_of(report::conditions(open.subject()).sections), "Measurement line, X: at Y"));
    const support::Reported told{.document = on_a_line()};
    CHECK_FALSE(says(support::words_of(report::conditions(told.subject()).sections), "Measurement line, X"));
}

TEST_CASE("a turning axis has no line, whatever place its table stood at") {
    document::Document document = on_a_line();
    document.setup->lines = {{.axis = "C", .at_mm = {{"X", 1200}, {"Y", 0}, {"Z", 350}}, .offset_to_tool_point_mm = {}}};
    document::Series& series = document.series.front();
    series.error = *document::error_symbol("ECC");
    series.position_unit = units::position_degree;
    for (auto& target : series.targets) target.position = units::Position(target.written, units::position_degree);
    CHECK_FALSE(lines_of(std::move(document)));
}

TEST_CASE("an offset along the line takes the functional point no further from it") {
    document::Document document = on_a_line();
    document.setup->lines[0].offset_to_tool_point_mm = std::array<double, 3>{-500, 30, 40};
    const auto made = lines_of(document);
    CHECK(made->opening.lead.words() == "The line ran 50\u202fmm off the functional point.");
    CHECK(says(margin_words(*made), "Functional point: \u2212500\u202fmm in X, 30\u202fmm in Y and 40\u202fmm in Z from it."));
    document.setup->lines[0].offset_to_tool_point_mm = std::array<double, 3>{-500, 0, 0};
    CHECK(lines_of(document)->opening.lead.words() == "The line ran through the functional point.");
    document.setup->lines[0].offset_to_tool_point_mm.reset();
    CHECK(lines_of(document)->opening.lead.words() ==
          "The line ran along X at Y\u00a0=\u00a0250\u202fmm, Z\u00a0=\u00a0\u2212300\u202fmm.");
    CHECK(says(margin_words(*lines_of(document)), "Where the functional point is from it is not stated."));
    CHECK_FALSE(says(lines_of(document)->caption.words(), "functional point"));
}

TEST_CASE("travel is drawn where it is stated, the volume where all three are, and a dead path never, for its side is unknown") {
    document::Document document = on_a_line();
    support::add_axis(document, "X", 1200, -100);
    document.machine->vertical = "Z";
    document.series.front().dead_path_mm = 120;
    const auto one = lines_of(document);
    REQUIRE(one);
    CHECK(one->drawing.lines[0].travel == std::pair(-100.0, 1200.0));
    CHECK_FALSE(one->drawing.volume);
    CHECK(says(one->caption.words(), "dashed: travel beyond them"));
    CHECK(says(margin_words(*one), "Dead path 120\u202fmm, not drawn: the side is not stated."));
    support::add_axis(document, "Y", 0, 500);
    support::add_axis(document, "Z", -400, 0);
    const auto all = lines_of(document);
    REQUIRE(all->drawing.volume);
    CHECK(all->drawing.volume->at(2) == std::pair(-400.0, 0.0));
    CHECK(says(all->caption.words(), "thin dashes: travel of all three axes"));
}

TEST_CASE("set-up checks are counted: passed, failed, or not evaluated") {
    const auto lead = [](const std::vector<document::SetupCheck>& checks) {
        document::Document document = on_a_line();
        document.setup->checks = checks;
        return lines_of(document)->opening.lead.words();
    };
    CHECK(says(lead({done(true), done(true)}), "Both set-up checks passed."));
    CHECK(says(lead({done(true)}), "The one set-up check passed."));
    CHECK(says(lead({done(true), done(false), done(false)}), "Two of three set-up checks failed."));
    CHECK(says(lead({done(true), done(std::nullopt)}), "One of two set-up checks passed, one could not be evaluated."));
}
