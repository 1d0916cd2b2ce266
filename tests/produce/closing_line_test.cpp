#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {
namespace {

/// What stands level with "Largest, smallest", from left to right.
std::string closing_line(const small::Json& json) {
    DrawnDocument drawn(json);
    std::string line;
    for (const frame::Frame& page : drawn.pages("readings")) {
        const auto runs = runs_in(page.items);
        const auto head = std::ranges::find(runs, std::string("Largest, smallest"), &frame::GlyphRun::text);
        if (head == runs.end()) continue;
        std::vector<frame::GlyphRun> level;
        for (const frame::GlyphRun& run : runs)
            if (y_of(run.origin) == Approx(y_of(head->origin)).margin(hairline)) level.push_back(run);
        std::ranges::sort(level, {}, [](const frame::GlyphRun& run) { return x_of(run.origin); });
        for (const frame::GlyphRun& run : level) line += " " + run.text;
    }
    // As it is read: one space wherever something stands apart.
    std::string read;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const std::string_view rest = std::string_view(line).substr(i);
        const std::size_t blank = rest.starts_with(" ") ? 1 : rest.starts_with("\u00a0") ? 2 : rest.starts_with("\u2002") ? 3 : 0;
        if (blank == 0) read += line[i];
        else if (!read.empty() && read.back() != ' ') read += ' ';
        if (blank > 0) i += blank - 1;
    }
    return read;
}

}  // namespace

TEST_CASE("a readings table closes with the extremes of what was used, and what the series gives", "[pictures]") {
    CHECK(closing_line(small::positioning()) == "Largest, smallest 4.9, −0.1 5.6, 1.0 A 6.5 E 4.9 M 4.0 R 3.4 B 2.1");
    // 90.5 at the last target and what stands excluded at the third took no part.
    CHECK(closing_line(small::missing_and_excluded()) == "Largest, smallest 4.9, −0.1 5.6, 1.0 A 6.9 E 4.9 M 4.0 R 3.0 B 1.2");
}

TEST_CASE("the closing line leaves out what is not evaluated: one run, and one target", "[pictures]") {
    small::Json one_run = small::one_run_each_way();
    one_run["series"][0]["error"] = "EYX";
    CHECK(closing_line(one_run) == "Largest, smallest 4.4, 0.2 5.1, 1.4 straightness 3.4 B 1.9");
    small::Json one_target = small::positioning();
    one_target["series"][0]["targets"] = {100};
    for (small::Json& run : one_target["series"][0]["runs"]) run["deviations"] = {run["deviations"][1]};
    CHECK(closing_line(one_target) == "Largest, smallest 2.3, 1.9 3.8, 3.1 A 2.5 E 1.3 M 0.0 R 2.5 B 1.3");
    CHECK(closing_line(small::stated_only()) == "");
}

TEST_CASE("the closing line of one approach and of a rotary axis is in the units of its table", "[pictures]") {
    CHECK(closing_line(small::without_approach(small::positioning(), "negative")) == "Largest, smallest ● 4.9, −0.1 A 5.7 E 4.2 R 1.8");
    small::Json degrees = small::turn();
    degrees["series"][0]["unit"] = "deg";
    for (small::Json& run : degrees["series"][0]["runs"])
        for (small::Json& reading : run["deviations"]) reading = reading.get<double>() / 1000;
    CHECK(closing_line(degrees) == "Largest, smallest 3.4, −4.1 4.4, −2.9 A 9.1 E 8.1 M 6.9 R 3.2 B 1.4");
    // Taken as target minus actual: the signs are those of the table.
    CHECK(closing_line(small::inches()) == "Largest, smallest 170, 8 221, 39 A 243 E 197 M 157 R 123 B 76");
}

}  // namespace wayfolio::testing
