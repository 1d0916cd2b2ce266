#include "evaluate/series/geometry/geometry.hpp"
#include "evaluate/series/angles.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/straightness.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

/// A constant error of one arc second in each angle asked for, and a flat series of `symbol`, on a line with offset t to the tool
/// point.
struct Levered {
    document::Document document;
    std::vector<SeriesEvaluation> series;
};

document::Series in_state(document::Series series, const std::string& state = "as-left") {
    series.id = series.error.text() + "-" + state;
    series.state = state;
    return series;
}

Levered levered(std::vector<document::Series> series, const std::array<double, 3>& t) {
    Levered made;
    made.document.setup.emplace().lines.push_back({"X", {}, t});
    made.document.series = std::move(series);
    for (auto& each : made.document.series) {
        each.measurement_line = 0;
        const auto kind = each.error.kind();
        made.series.push_back(kind == document::ErrorKind::Positioning    ? evaluate_positioning(made.document, each)
                              : kind == document::ErrorKind::Straightness ? evaluate_straightness(made.document, each)
                                                                         : evaluate_angle(made.document, each));
    }
    add_tool_points(made.document, made.series);
    return made;
}

document::Series flat(const std::string& symbol, double value, const DeviationUnit& unit = units::micrometre) {
    const support::Rows rows{{value, value, value}};
    return in_state(support::series(symbol, {0, 500, 1000}, rows, rows, unit));
}

double effect(const std::string& symbol, const std::string& angle, const std::array<double, 3>& t) {
    std::vector<document::Series> series{flat(symbol, 0)};
    for (const char* each : {"EA", "EB", "EC"}) {
        const std::string name = each + symbol.substr(2);
        series.push_back(flat(name, name == angle ? 1 : 0, units::arcsecond));
    }
    return levered(series, t).series[0].at_tool_point->targets[1].effect.positive->in(units::micrometre);
}

}  // namespace

TEST_CASE("one arc second over 100 mm is 0.485 um (Abbe), with the sign of rotation x t") {
    const double um = 0.4848136811;  // 4.848137 nm per arc second and mm
    CHECK(effect("EXX", "EBX", {0, 0, 100}) == Approx(um));
    CHECK(effect("EXX", "ECX", {0, 100, 0}) == Approx(-um));
    CHECK(effect("EYX", "ECX", {100, 0, 0}) == Approx(um));
    CHECK(effect("EYX", "EAX", {0, 0, 100}) == Approx(-um));
    CHECK(effect("EZX", "EAX", {0, 100, 0}) == Approx(um));
    CHECK(effect("EZX", "EBX", {100, 0, 0}) == Approx(-um));
    CHECK(effect("EXX", "EAX", {100, 100, 100}) == Approx(0).margin(1e-15));  // roll does not move the tool along the axis
}

TEST_CASE("the nine angles move the tool as in the unit cases of the rigid body model") {
    // Constructed: base - X - Y - Z - tool, position 400/300/200, tool 20/-30/-150 mm, one error of 1" at a time; um in X, Y, Z.
    // Arms from each axis's line: X (20, 270, 50), Y (20, -30, 50), Z (20, -30, -150).
    struct Case {
        char axis;
        std::array<double, 3> arm;
        char rotation;
        std::array<double, 3> um;
    };
    const std::vector<Case> cases{
        {'X', {20, 270, 50}, 'A', {0, -0.242407, 1.308997}},   {'X', {20, 270, 50}, 'B', {0.242407, 0, -0.096963}},
        {'X', {20, 270, 50}, 'C', {-1.308997, 0.096963, 0}},   {'Y', {20, -30, 50}, 'A', {0, -0.242407, -0.145444}},
        {'Y', {20, -30, 50}, 'B', {0.242407, 0, -0.096963}},   {'Y', {20, -30, 50}, 'C', {0.145444, 0.096963, 0}},
        {'Z', {20, -30, -150}, 'A', {0, 0.727221, -0.145444}}, {'Z', {20, -30, -150}, 'B', {-0.727221, 0, -0.096963}},
        {'Z', {20, -30, -150}, 'C', {0.145444, 0.096963, 0}}};
    for (const Case& each : cases)
        for (std::size_t i = 0; i < 3; ++i) {
            const std::string direction(1, "XYZ"[i]), axis(1, each.axis), angle = std::string("E") + each.rotation + axis;
            CAPTURE(angle, direction);
            CHECK(effect("E" + direction + axis, angle, each.arm) == Approx(each.um[i]).margin(5e-7));
        }
}

TEST_CASE("the path tangent turns with the carriage: ahead on the axis the error grows as the angle says") {
    // Derived by the right-hand rule: dEYX/dx = +ECX, dEZX/dx = -EBX, dEXY/dy = -ECY, dEZY/dy = +EAY, dEXZ/dz = +EBZ, dEYZ/dz =
    // -EAZ.
    CHECK(effect("EYX", "ECX", {100, 0, 0}) > 0);
    CHECK(effect("EZX", "EBX", {100, 0, 0}) < 0);
    CHECK(effect("EXY", "ECY", {0, 100, 0}) < 0);
    CHECK(effect("EZY", "EAY", {0, 100, 0}) > 0);
    CHECK(effect("EXZ", "EBZ", {0, 0, 100}) > 0);
    CHECK(effect("EYZ", "EAZ", {0, 0, 100}) < 0);
}

TEST_CASE("positioning at the tool point takes the changing pitch along, interpolated between its targets") {
    // EBX = -20 + 0.04 x urad, t = (0, 0, 150) mm: effect -3 um at 0, +3 um at 1 000 mm; EXX itself is 0 up and -1 down.
    const auto exx = in_state(support::series("EXX", {0, 250, 500, 1000}, {{0, 0, 0, 0}}, {{-1, -1, -1, -1}}));
    const auto ebx = in_state(support::series("EBX", {0, 500, 1000}, {{-20, 0, 20}}, {{-20, 0, 20}}, units::microradian));
    const auto made = levered({exx, ebx}, {0, 0, 150});
    const AtToolPoint& moved = *made.series[0].at_tool_point;
    CHECK(moved.targets[1].effect.positive->in(units::micrometre) == Approx(-1.5));
    CHECK(moved.targets[3].mean.negative->in(units::micrometre) == Approx(2));
    CHECK(moved.largest->in(units::micrometre) == Approx(6));
    REQUIRE(moved.set_by.size() == 2);
    CHECK(moved.set_by[0].position.in(units::position_millimetre) == 1000);
    CHECK(moved.set_by[1].position.in(units::position_millimetre) == 0);
    CHECK(moved.from == std::vector<std::string>{"EBX-as-left"});
    for (const auto& parameter : moved.parameters) {
        if (parameter.name == "E") CHECK(value_of(parameter.value)->in(units::micrometre) == Approx(7));
        if (parameter.name == "M") CHECK(value_of(parameter.value)->in(units::micrometre) == Approx(6));
        if (parameter.name == "B") CHECK(value_of(parameter.value)->in(units::micrometre) == Approx(1));
        CHECK(parameter.name != "A");
        CHECK(parameter.name != "R");
    }
    // The angle itself: 40 urad at an arm of 150 mm.
    CHECK(made.series[1].at_tool_point->largest->in(units::micrometre) == Approx(6));
    CHECK(made.series[1].at_tool_point->unit == DeviationUnit(units::micrometre));
    CHECK(made.series[1].at_tool_point->parameters.empty());
}

TEST_CASE("the largest effect is its range over both approaches, whatever the instrument called zero") {
    // Pitch 0, 10, 20 urad up and 5 more down, read from 0 or from -150 urad: at 150 mm 25 urad are 3.75 um.
    for (const double zero : {0.0, -150.0, 40.0}) {
        CAPTURE(zero);
        const support::Rows up{{zero, zero + 10, zero + 20}}, down{{zero + 5, zero + 15, zero + 25}};
        const auto ebx = in_state(support::series("EBX", {0, 500, 1000}, up, down, units::microradian));
        const auto made = levered({flat("EXX", 0), ebx}, {0, 0, 150});
        CHECK(made.series[0].at_tool_point->largest->in(units::micrometre) == Approx(3.75));
        CHECK(made.series[1].at_tool_point->largest->in(units::micrometre) == Approx(3.75));
    }
    // An angle of one arc second over the travel at an arm of 100 mm (Abbe: 0.484814 um), in any direction across its axis.
    const support::Rows second{{0, 0.5, 1}};
    const auto ecx = in_state(support::series("ECX", {0, 500, 1000}, second, second, units::arcsecond));
    for (const std::array<double, 3>& t : {std::array<double, 3>{0, 100, 30}, {100, 0, 0}, {60, -80, 7}})
        CHECK(levered({ecx}, t).series[0].at_tool_point->largest->in(units::micrometre) == Approx(0.484814).margin(5e-7));
}

TEST_CASE("a series that names no line is on the only one of its axis; of several none is taken") {
    auto document = document::Document();
    auto& lines = document.setup.emplace().lines;
    lines = {{"Y", {}, std::array<double, 3>{9, 9, 9}}, {"X", {}, std::array<double, 3>{0, 0, 150}}};
    document.series = {flat("EXX", 0), flat("EBX", 1, units::arcsecond)};
    const auto moved = [&] {
        std::vector<SeriesEvaluation> all{evaluate_positioning(document, document.series[0]), evaluate_angle(document, document.series[1])};
        add_tool_points(document, all);
        return all[0].at_tool_point;
    };
    REQUIRE(moved());
    CHECK(moved()->offset_mm[2] == 150);
    lines.push_back({"X", {}, std::array<double, 3>{0, 0, 20}});
    CHECK_FALSE(moved());
    document.series[0].measurement_line = 2;
    CHECK(moved()->offset_mm[2] == 20);
}

TEST_CASE("straightness at the tool point is evaluated about its own line") {
    const support::Rows bow{{0, 4, 0}}, roll{{0, 20, 0}};
    const auto eyx = in_state(support::series("EYX", {0, 500, 1000}, bow, bow));
    const auto eax = in_state(support::series("EAX", {0, 500, 1000}, roll, roll, units::microradian));
    const auto made = levered({eyx, eax}, {0, 0, 100});  // effect -EAX tz: -2 um in the middle
    const auto& parameters = made.series[0].at_tool_point->parameters;
    CHECK(parameters[0].name == "straightness");
    CHECK(value_of(parameters[0].value)->in(units::micrometre) == Approx(2));
}

TEST_CASE("an angle that is missing, in another state or too short is named as the reason") {
    const auto reason = [](const Levered& made) {
        return std::get<NotEvaluated>(made.series[0].at_tool_point->parameters.at(0).value).reason;
    };
    CHECK(reason(levered({flat("EXX", 0)}, {0, 0, 150})).find("EBX") != std::string::npos);
    auto found = flat("EBX", 1, units::arcsecond);
    found.state = "as-found";
    CHECK(reason(levered({flat("EXX", 0), found}, {0, 0, 150})).find("EBX") != std::string::npos);
    const auto shorter = in_state(support::series("EBX", {0, 500}, {{1, 1}}, {{1, 1}}, units::arcsecond));
    CHECK(reason(levered({flat("EXX", 0), shorter}, {0, 0, 150})).find("1000 mm") != std::string::npos);
    CHECK(value_of(levered({flat("EXX", 0)}, {0, 0, 0}).series[0].at_tool_point->parameters.at(0).value));
}

TEST_CASE("as left is compared with as found of the same error and line") {
    auto document = document::Document();
    const support::Rows worse{{0, 9, 3}}, better{{0, 2, 1}};
    document.series = {in_state(support::series("EXX", {0, 500, 1000}, worse, worse), "as-found"),
                       in_state(support::series("EXX", {0, 500, 1000}, better, better)),
                       in_state(support::series("EYX", {0, 500, 1000}, better, better))};
    std::vector<SeriesEvaluation> all{evaluate_positioning(document, document.series[0]),
                                      evaluate_positioning(document, document.series[1]),
                                      evaluate_straightness(document, document.series[2])};
    const auto compared = found_against_left(document, all);
    REQUIRE(compared.size() == 1);
    CHECK(compared[0].found == "EXX-as-found");
    const auto e = std::find_if(compared[0].parameters.begin(), compared[0].parameters.end(),
                                [](const auto& each) { return each.name == "E"; });
    CHECK(e->change.in(units::micrometre) == Approx(-7));
    for (const auto& parameter : compared[0].parameters) CHECK(parameter.name != "A");  // one run: not evaluated on either side
    document.setup.emplace().lines = {{"X", {}, {}}, {"X", {}, {}}};
    document.series[0].measurement_line = 0;
    document.series[1].measurement_line = 1;
    CHECK(found_against_left(document, all).empty());
    document.series[1].measurement_line = 0;
    CHECK(found_against_left(document, all).size() == 1);
}
