#include "page/blocks/readings_grid.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

struct Rooms {
    NumberRoom position, reading, mean, s, reversal, repeatability;
    std::size_t most_runs = 0;
};

Rooms rooms_of(const Tools& tools, const report::Readings& block) {
    Rooms rooms;
    rooms.mean.add(tools, Text("mean"));
    for (const auto& target : block.targets) {
        rooms.position.add(tools, Text(target.position));
        rooms.reversal.add(tools, target.reversal);
        rooms.repeatability.add(tools, target.repeatability);
        for (const auto& line : target.lines) {
            for (const Text& reading : line.readings) rooms.reading.add(tools, reading);
            rooms.mean.add(tools, line.mean);
            rooms.s.add(tools, line.s);
            rooms.most_runs = std::max(rooms.most_runs, line.readings.size());
        }
    }
    return rooms;
}

constexpr double column_air = 8;  // between columns of numbers

Paper room_width(const NumberRoom& room) { return room.before + room.after; }

Paper evaluated_width(const Rooms& rooms) {
    Paper sum = room_width(rooms.mean) + room_width(rooms.s) + pt(column_air);
    for (const NumberRoom* room : {&rooms.reversal, &rooms.repeatability}) {
        if (room_width(*room) > Paper{}) sum += room_width(*room) + pt(column_air);
    }
    return sum;
}

/// Evaluated columns from the right edge in; readings spread over what is left.
void place_columns(ReadingsGrid& grid, const Rooms& rooms, Paper readings_from) {
    Paper right = grid.right;
    const auto from_right = [&](const NumberRoom& room, Paper& decimal) {
        decimal = right - room.after;
        if (room_width(room) > Paper{}) right = decimal - room.before - pt(column_air);
    };
    from_right(rooms.repeatability, grid.repeatability);
    from_right(rooms.reversal, grid.reversal);
    from_right(rooms.s, grid.s);
    from_right(rooms.mean, grid.mean);
    if (grid.runs_per_line > 0) {
        const Paper spread = (right - readings_from) / static_cast<double>(grid.runs_per_line);
        // Few runs still need room for the words over them.
        constexpr double usual_pitch = 34, words_over_runs = 84;
        const Paper wanted = std::max(pt(usual_pitch), pt(words_over_runs) / static_cast<double>(grid.runs_per_line));
        grid.run_pitch = std::min(spread, std::max(grid.run_pitch, wanted));
        for (std::size_t i = 0; i < grid.runs_per_line; ++i) {
            grid.runs.push_back(right - grid.run_pitch * static_cast<double>(grid.runs_per_line - 1 - i) - rooms.reading.after);
        }
    }
}

}  // namespace

void NumberRoom::add(const Tools& tools, const Text& words) {
    if (words.empty()) return;
    std::string all = words.words();
    std::ranges::replace_if(all, [](char sign) { return sign >= '0' && sign <= '9'; }, '0');
    if (std::ranges::find(forms, all) != forms.end()) return;
    forms.push_back(all);
    const auto mark = all.find(tools.layout.decimal_mark);
    const Paper whole = plot::width_of(tools, Text(all.substr(0, mark)), {});
    before = std::max(before, whole);
    after = std::max(after, plot::width_of(tools, Text(all), {}) - whole);
}

double ReadingsGrid::lines_for(std::size_t readings) const {
    if (runs_per_line == 0 || readings == 0) return 1;
    return std::ceil(static_cast<double>(readings) / static_cast<double>(runs_per_line));
}

std::vector<Column> ReadingsGrid::columns() const {
    std::vector<Column> all{{number, ColumnAlign::Right}, {position, ColumnAlign::Decimal}, {marker, ColumnAlign::Left}};
    for (const Paper x : runs) all.push_back({x, ColumnAlign::Decimal});
    for (const Paper x : {mean, s, reversal, repeatability}) all.push_back({x, ColumnAlign::Decimal});
    return all;
}

std::vector<Column> ReadingsGrid::head_columns() const {
    std::vector<Column> all = columns();
    all[1] = {position + pt(position_tail), ColumnAlign::Right};
    for (std::size_t i = 0; i < runs.size(); ++i) all[3 + i] = {runs[i] + pt(run_tail), ColumnAlign::Right};
    for (std::size_t i = 3 + runs.size(); i < all.size(); ++i) all[i] = {all[i].x + pt(statistics_tail), ColumnAlign::Right};
    return all;
}

ReadingsGrid readings_grid(const Composer& composer, const report::Readings& block) {
    const auto& page = composer.grid();
    const Rooms rooms = rooms_of(composer.tools(), block);
    ReadingsGrid grid;
    constexpr double number_width = 16, after_number = 10, before_marker = 10, after_marker = 8;
    grid.number = page.left + pt(number_width);
    const Paper position_width = std::max(room_width(rooms.position), plot::width_of(composer.tools(), "position", {}));
    const Paper position_end = grid.number + pt(after_number) + position_width;
    grid.position = position_end - rooms.position.after;
    grid.position_tail = rooms.position.after.in(units::point);
    grid.marker = position_end + pt(before_marker);
    const Paper readings_from = grid.marker + pt(after_marker);

    const Paper pitch = room_width(rooms.reading) + pt(column_air);
    const auto capacity = [&](Paper right) {
        const double room = (right - readings_from - evaluated_width(rooms) - pt(column_air)).in(units::point);
        return static_cast<std::size_t>(std::max(1.0, std::floor(room / std::max(pitch.in(units::point), 1.0))));
    };
    grid.wide = rooms.most_runs > capacity(page.wide_right);
    grid.right = grid.wide ? page.margin_right : page.wide_right;
    grid.runs_per_line = std::min(rooms.most_runs, capacity(grid.right));
    grid.run_pitch = pitch;
    grid.run_tail = rooms.reading.after.in(units::point);
    grid.statistics_tail = rooms.mean.after.in(units::point);

    place_columns(grid, rooms, readings_from);
    return grid;
}

}  // namespace wayfolio::page
