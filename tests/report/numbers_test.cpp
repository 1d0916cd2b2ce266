#include "document/read_document.hpp"
#include "report/blocks/blocks.hpp"
#include "report/build.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>

/// The rules for numbers, held by what the blocks of every sample and awkward document say.
using namespace wayfolio;

namespace {

const std::filesystem::path root = WAYFOLIO_SOURCE_FOLDER;

std::vector<std::filesystem::path> every_document() {
    std::vector<std::filesystem::path> found;
    for (const char* folder : {"sample-results", "tests/golden/awkward"})
        for (const auto& entry : std::filesystem::directory_iterator(root / folder))
            if (entry.path().extension() == ".json") found.push_back(entry.path());
    std::ranges::sort(found);
    return found;
}

support::Reported awkward(const std::string& name) { return {document::read_document(root / "tests/golden/awkward" / name)}; }

/// "−44.9" as a number; nothing of what is no number.
std::optional<double> number_in(const report::Text& text) {
    std::string words = text.words();
    const auto replace_all = [&](std::string_view what, std::string_view by) {
        for (auto at = words.find(what); at != std::string::npos; at = words.find(what)) words.replace(at, what.size(), by);
    };
    replace_all(units::minus_sign, "-");
    replace_all(units::thin_space, "");
    replace_all("+", "");
    char* end = nullptr;
    const double value = std::strtod(words.c_str(), &end);
    if (end == words.c_str() || *end != '\0') return std::nullopt;
    return value;
}

/// −44.9 of "−44.9 ± 10.7 µm".
double leading_number(const report::Text& text) {
    const std::string words = text.words();
    std::size_t end = 0;
    const auto is = [&](std::string_view what) { return words.compare(end, what.size(), what) == 0; };
    const auto is_figure = [&] { return std::string_view("0123456789.").find(words[end]) != std::string_view::npos; };
    while (end < words.size() && (is(units::minus_sign) || is(units::thin_space) || is_figure()))
        end += is(units::minus_sign) ? units::minus_sign.size() : is(units::thin_space) ? units::thin_space.size() : 1;
    while (words.substr(0, end).ends_with(units::thin_space)) end -= units::thin_space.size();
    return number_in(report::Text(words.substr(0, end))).value();
}

int decimals_in(const report::Text& text) {
    const std::string words = text.words();
    const auto point = words.find('.');
    return point == std::string::npos ? 0 : static_cast<int>(words.size() - point - 1);
}

/// No cell prints 0 where its quantity is not.
void check_shows(const report::Text& cell, const std::optional<units::Deviation>& value, const std::string& what) {
    INFO(what << ": " << cell.words());
    const auto printed = number_in(cell);
    if (!value || !printed) return;
    const bool is_zero =
        std::abs(value->in(value->dimension() == units::Dimension::Length ? units::DeviationUnit(units::micrometre)
                                                                          : units::DeviationUnit(units::microradian))) < 1e-9;
    CHECK((*printed == 0) == is_zero);
}

}  // namespace

TEST_CASE("no value, U or limit of a table of parameters prints as 0 where it is not, and a row has one place") {
    std::size_t rows = 0;
    for (const auto& path : every_document()) {
        const support::Reported made{document::read_document(path)};
        const report::Subject subject = made.subject();
        for (const auto& view : subject.views) {
            if (view.evaluation.kind != evaluate::SeriesKind::Positioning) continue;
            const auto opening = report::positioning_opening(subject, view);
            const std::vector<std::string> names{"A", "E", "M", "R", "B", "B_mean"};
            for (std::size_t i = 0; i < names.size(); ++i) {
                const auto& row = opening.parameters[i];
                const std::string what = path.filename().string() + " " + view.series.id + " " + names[i];
                const auto* decision = report::find_decision(subject.evaluation, view.series.id, names[i]);
                check_shows(row.both, report::known_value(view.evaluation, names[i]), what);
                check_shows(row.U, report::expanded_of(subject, view.series.id, names[i]), what + ", U");
                check_shows(row.limit, decision ? std::optional(decision->limit) : std::nullopt, what + ", limit");
                INFO(what << ": " << row.both.words() << " U " << row.U.words());
                if (number_in(row.U) && number_in(row.both)) CHECK(decimals_in(row.U) == decimals_in(row.both));
                if (number_in(row.positive) && number_in(row.both)) CHECK(decimals_in(row.positive) == decimals_in(row.both));
                ++rows;
            }
        }
    }
    CHECK(rows > 150);
}

TEST_CASE("as left less as found is the change that is printed, and all three stand to one place") {
    std::size_t rows = 0;
    for (const auto& path : every_document()) {
        const support::Reported made{document::read_document(path)};
        const auto states = report::states(made.subject());
        if (!states) continue;
        for (const report::StatePair& pair : states->pairs) {
            INFO(path.filename().string() << " " << pair.name << ": " << pair.rows[0].second.words() << " " << pair.rows[1].second.words()
                                          << " " << pair.rows[2].second.words());
            const auto first = leading_number(pair.rows[0].second), second = leading_number(pair.rows[1].second),
                       change = leading_number(pair.rows[2].second);
            CHECK(second - first == Approx(change).margin(1e-9));
            ++rows;
        }
        for (const report::ChangeRow& row : states->changes) {
            INFO(path.filename().string() << " " << row.name.words() << ": " << row.first.words() << " " << row.second.words() << " "
                                          << row.change.words());
            const auto first = number_in(row.first), second = number_in(row.second), change = number_in(row.change);
            REQUIRE((first && second && change));
            CHECK(*second - *first == Approx(*change).margin(1e-9));
            CHECK(decimals_in(row.first) == decimals_in(row.second));
            CHECK(decimals_in(row.first) == decimals_in(row.change));
            ++rows;
        }
    }
    CHECK(rows >= 12);
}

TEST_CASE("printed limit less printed value, and less printed U, is the margin that is printed") {
    std::size_t checked = 0;
    for (const auto& path : every_document()) {
        const support::Reported made{document::read_document(path)};
        const report::Subject subject = made.subject();
        for (const auto& decision : subject.evaluation.decisions) {
            const auto* view = report::find_view(subject.views, decision.series);
            if (!decision.value || !view || decision.axes) continue;
            const report::Shown& shown = view->shown;
            const int decimals = report::decided_decimals(decision, shown);
            const report::Text value(report::number_of(shown, report::judged_value(decision), decimals)),
                limit(report::limit_number(shown, decision.limit));
            INFO(path.filename().string() << " " << decision.parameter << ": " << value.words() << " limit " << limit.words());
            const double margin = report::printed_margin(decision, shown, report::TakenOff::Value).value;
            CHECK(*number_in(limit) - *number_in(value) == Approx(margin).margin(1e-9));
            if (decision.expanded) {
                const report::Text U(report::number_of(shown, *decision.expanded, decimals));
                CHECK(margin - *number_in(U) ==
                      Approx(report::printed_margin(decision, shown, report::TakenOff::ValueAndU).value).margin(1e-9));
            }
            ++checked;
        }
    }
    CHECK(checked > 20);
}

TEST_CASE("readings and means close: a reversal is the difference of the means that stand beside it") {
    const auto made = awkward("whole-micrometres.json");
    const report::Subject subject = made.subject();
    const auto page = report::readings(subject, subject.views.at(0));
    REQUIRE(page.targets.size() == 6);
    for (const auto& target : page.targets) {
        INFO(target.position << ": " << target.reversal.words());
        REQUIRE(target.lines.size() == 2);
        CHECK(*number_in(target.lines[0].mean) - *number_in(target.lines[1].mean) == Approx(*number_in(target.reversal)).margin(1e-9));
        for (const auto& line : target.lines) {
            CHECK(decimals_in(line.readings.front()) == 0);  // as they were taken
            CHECK(decimals_in(line.mean) == 1);              // one digit beyond
            CHECK(decimals_in(line.s) == 1);
        }
    }
}

TEST_CASE("what sets a range or a maximum is strong in the readings' columns, and nothing else is") {
    for (const char* sample : {"long-axis.json", "short-axis.json"}) {
        const support::Reported made{document::read_document(root / "sample-results" / sample)};
        const report::Subject subject = made.subject();
        const auto page = report::readings(subject, subject.views.at(0));
        const auto strong = [](const report::Text& text) { return text.spans().front().emphasis == report::Emphasis::Strong; };
        /// The strong numbers of a column beside its farthest out, by their printed digits.
        const auto check = [&](const auto& cell, const std::vector<double>& farthest) {
            std::vector<double> found;
            for (const auto& target : page.targets)
                if (const report::Text& text = cell(target); strong(text)) found.push_back(*number_in(text));
            std::ranges::sort(found);
            CHECK(found == farthest);
        };
        const auto column = [&](const auto& cell) {
            std::vector<double> all;
            for (const auto& target : page.targets) all.push_back(*number_in(cell(target)));
            return all;
        };
        for (std::size_t which : {0U, 1U}) {
            const auto mean = [&](const report::ReadingTarget& target) -> const report::Text& { return target.lines[which].mean; };
            const auto s = [&](const report::ReadingTarget& target) -> const report::Text& { return target.lines[which].s; };
            const auto means = column(mean), spreads = column(s);
            check(mean, {std::ranges::min(means), std::ranges::max(means)});
            check(s, {std::ranges::max(spreads)});
        }
        const auto repeatability = [](const report::ReadingTarget& target) -> const report::Text& { return target.repeatability; };
        check(repeatability, {std::ranges::max(column(repeatability))});
        const auto reversal = [](const report::ReadingTarget& target) -> const report::Text& { return target.reversal; };
        const auto reversals = column(reversal);
        check(reversal, {std::ranges::max(reversals, {}, [](double value) { return std::abs(value); })});
    }
}

TEST_CASE("a document has one unit for one quantity: its own, or a decimal multiple of it") {
    const auto unit_of = [](const std::string& name, std::size_t series) {
        const auto made = awkward(name);
        return std::string(made.subject().views.at(series).shown.unit.symbol);
    };
    CHECK(unit_of("inch-job.json", 0) == "µin");
    CHECK(unit_of("inch-job.json", 1) == "µin");
    CHECK(unit_of("inch-job.json", 4) == "″");
    CHECK(unit_of("inches-descending.json", 0) == "µin");
    CHECK(unit_of("rotary-in-degrees.json", 0) == "10⁻³\u202f°");
    CHECK(unit_of("rotary-found-and-left.json", 0) == "″");
    CHECK(unit_of("rotary-found-and-left.json", 2) == "10⁻³\u202f°");
    CHECK(unit_of("millimetres-and-slopes.json", 0) == "µm");
    CHECK(unit_of("millimetres-and-slopes.json", 2) == "µm/m");
    CHECK(unit_of("tiny-values.json", 0) == "µm");
    CHECK(report::squareness_shown(awkward("millimetres-and-slopes.json").subject()).unit == units::DeviationUnit(units::arcsecond));
}

TEST_CASE("a long axis has its positions in one unit, in figures, sentences and tables") {
    const auto made = awkward("millimetres-and-slopes.json");
    const report::Subject subject = made.subject();
    const auto& view = subject.views.at(0);
    const auto opening = report::positioning_opening(subject, view);
    CHECK(opening.plot.position_unit == units::position_millimetre);
    CHECK_THAT(opening.opening.body.words(), Catch::Contains("at 6\u202f400\u202fmm"));
    CHECK(report::readings(subject, view).position_unit == "mm");
}

TEST_CASE("a layout that names units has them, figures too") {
    auto made = awkward("inch-job.json");
    made.layout.length.unit = "um";
    made.layout.angle.unit = "urad";
    made.layout.linear_position = "mm";
    const report::Subject subject = made.subject();
    CHECK(subject.views.at(0).shown.unit == units::DeviationUnit(units::micrometre));
    CHECK(subject.views.at(4).shown.unit == units::DeviationUnit(units::microradian));
    const auto opening = report::positioning_opening(subject, subject.views.at(0));
    CHECK(opening.plot.unit == units::DeviationUnit(units::micrometre));
    CHECK(opening.plot.position_unit == units::position_millimetre);
    CHECK(report::readings(subject, subject.views.at(0)).position_unit == "mm");
}

TEST_CASE("a limit stands as it was agreed, without added zeros; where it is shown in another unit, the agreed form is named") {
    const auto made = awkward("inch-job.json");
    const report::Subject subject = made.subject();
    const auto opening = report::positioning_opening(subject, subject.views.at(0));
    CHECK(opening.parameters.at(0).limit.words() == "400");
    CHECK(opening.parameters.at(3).limit.words() == "150");
    REQUIRE_FALSE(opening.notes.empty());
    CHECK(opening.notes.back().words() == "Limits as agreed: A\u00a00.0004\u202fin and R\u00a00.00015\u202fin.");
    const auto degrees = awkward("rotary-in-degrees.json");
    const auto table = report::positioning_opening(degrees.subject(), degrees.subject().views.at(0));
    CHECK(table.parameters.at(0).limit.words() == "4");
    const auto found = awkward("rotary-found-and-left.json");
    const auto seconds = report::positioning_opening(found.subject(), found.subject().views.at(0));
    CHECK(seconds.parameters.at(0).limit.words() == "9");      // 0.0025 degrees
    CHECK(seconds.parameters.at(4).limit.words() == "1.238");  // 6 µrad
}

TEST_CASE("with readings in whole micrometres a result has one decimal at most, and U of less than that is not lost") {
    const auto made = awkward("whole-micrometres.json");
    const report::Subject subject = made.subject();
    for (const auto& view : subject.views) {
        if (view.evaluation.kind != evaluate::SeriesKind::Positioning) continue;
        for (const auto& row : report::positioning_opening(subject, view).parameters)
            if (number_in(row.both)) {
                INFO(view.series.id << " " << row.name.words() << " " << row.both.words() << " ± " << row.U.words());
                CHECK(decimals_in(row.both) <= 2);
                if (const auto U = number_in(row.U)) CHECK(*U > 0);
            }
    }
}
