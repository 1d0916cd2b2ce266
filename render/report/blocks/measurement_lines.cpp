#include "report/blocks/blocks.hpp"

#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wayfolio::report {
namespace {

using document::MeasurementLine;

constexpr std::array<std::string_view, 3> axis_names{"X", "Y", "Z"};
/// More of them in one figure cannot be told apart.
constexpr std::size_t most_lines = 6;

std::optional<std::size_t> place_of_axis(std::string_view name) {
    const auto found = std::ranges::find(axis_names, name);
    return found == axis_names.end() ? std::nullopt : std::optional<std::size_t>(found - axis_names.begin());
}

/// Travel of an axis in mm, rising; nothing where it is not stated, or no length.
std::optional<std::pair<double, double>> travel_of(const Subject& subject, std::size_t axis) {
    const document::Axis* found = document::find_axis(subject.document, axis_names.at(axis));
    if (!found || !found->travel || found->travel->from.dimension() != units::Dimension::Length) return std::nullopt;
    return std::minmax(found->travel->from.in(units::position_millimetre), found->travel->to.in(units::position_millimetre));
}

/// A line that can be drawn at its place, with what was measured on it.
struct PlacedLine {
    const MeasurementLine& line;
    std::size_t axis;
    MachinePlace from{}, to{};
    std::vector<std::string> errors = {};
    std::vector<std::pair<std::string, double>> dead_paths = {};  ///< of a series by its name, in mm
};

/// Both ends of a line without the ends along its axis; nothing where the document leaves open where one of the other axes stood.
std::optional<PlacedLine> placed(const MeasurementLine& line) {
    const auto axis = place_of_axis(line.axis);
    if (!axis) return std::nullopt;
    PlacedLine made{.line = line, .axis = *axis};
    for (std::size_t other = 0; other < axis_names.size(); ++other) {
        if (other == *axis) continue;
        const auto at = std::ranges::find_if(line.at_mm, [&](const auto& entry) { return entry.first == axis_names.at(other); });
        if (at == line.at_mm.end()) return std::nullopt;
        made.from.at(other) = made.to.at(other) = at->second;
    }
    return made;
}

/// Places along the axis where a series has readings; none of a rotary one.
std::vector<double> places_of(const document::Series& series) {
    std::vector<double> places;
    const auto add = [&](const units::Position& position) {
        if (position.dimension() == units::Dimension::Length) places.push_back(position.in(units::position_millimetre));
    };
    for (const auto& target : series.targets) add(target.position);
    if (!series.targets.empty() || !series.trace) return places;
    for (const auto& sample : series.trace->samples) add(sample.position);
    if (series.trace->many) add(series.trace->many->low), add(series.trace->many->high);
    return places;
}

void measure(const document::Document& document, PlacedLine& line) {
    bool any = false;
    for (const document::Series& series : document.series) {
        if (document::measurement_line(document, series) != &line.line) continue;
        const std::vector<double> places = places_of(series);
        if (places.empty()) continue;
        const auto [first, last] = std::ranges::minmax(places);
        line.from.at(line.axis) = any ? std::min(line.from.at(line.axis), first) : first;
        line.to.at(line.axis) = any ? std::max(line.to.at(line.axis), last) : last;
        any = true;
        add_once(line.errors, series.error.text());
        if (series.dead_path_mm && *series.dead_path_mm > 0) line.dead_paths.emplace_back(series_name(series), *series.dead_path_mm);
    }
}

/// None where the document does not say which axis is upright, or where they are too many for one figure.
std::vector<PlacedLine> measured_lines(const document::Document& document) {
    std::vector<PlacedLine> lines;
    if (!document.setup || !document.machine || !place_of_axis(document.machine->vertical)) return lines;
    for (const MeasurementLine& line : document.setup->lines) {
        auto made = placed(line);
        if (!made) continue;
        measure(document, *made);
        if (!made->errors.empty()) lines.push_back(std::move(*made));
    }
    if (lines.size() > most_lines) lines.clear();
    return lines;
}

std::string lines_label(std::size_t lines) { return lines == 1 ? "Where the measurement line ran" : "Where the measurement lines ran"; }

/// "Y = 300 mm": where an axis stood.
std::string standing_words(const Subject& subject, std::size_t axis, double mm) {
    return std::string(axis_names.at(axis)) + "\u00a0=\u00a0" + distance_text(subject, mm);
}

std::string place_words(const Subject& subject, const PlacedLine& line) {
    std::string words;
    for (std::size_t axis = 0; axis < axis_names.size(); ++axis)
        if (axis != line.axis) words += (words.empty() ? "" : ", ") + standing_words(subject, axis, line.from.at(axis));
    return words;
}

/// How far the functional point is from the line, square to it: what lies along the line moves the point on its way alone.
std::optional<double> off_functional_point(const PlacedLine& line) {
    if (!line.line.offset_to_tool_point_mm) return std::nullopt;
    double square = 0;
    for (std::size_t axis = 0; axis < axis_names.size(); ++axis)
        if (axis != line.axis) square += std::pow(line.line.offset_to_tool_point_mm->at(axis), 2);
    return std::sqrt(square);
}

/// "150 mm in Z": from the line, without what lies along it; nothing where it is on the line, or not stated.
std::string offset_words(const Subject& subject, const PlacedLine& line) {
    std::vector<std::string> parts;
    for (std::size_t axis = 0; line.line.offset_to_tool_point_mm && axis < axis_names.size(); ++axis)
        if (const double part = line.line.offset_to_tool_point_mm->at(axis); part != 0)
            parts.push_back(distance_text(subject, part) + " in " + std::string(axis_names.at(axis)));
    return listed(parts);
}

DrawnLine drawn(const Subject& subject, const PlacedLine& line, std::size_t number) {
    DrawnLine made{.number = std::to_string(number), .axis = line.axis, .from = line.from, .to = line.to,
                   .travel = travel_of(subject, line.axis), .offset = line.line.offset_to_tool_point_mm, .ends = {}, .beside = {}};
    made.name = Text().strong("Line " + made.number + ", along " + line.line.axis);
    if (const std::string offset = offset_words(subject, line); !offset.empty())
        made.functional_point = Text().quiet(offset + " from line " + made.number);
    made.ends = {Text(distance_text(subject, line.from.at(line.axis))), Text(distance_text(subject, line.to.at(line.axis)))};
    for (std::size_t axis = 0; axis < axis_names.size(); ++axis)
        if (axis != line.axis) made.beside.at(axis) = Text().quiet(standing_words(subject, axis, line.from.at(axis)));
    return made;
}

std::string reach_words(const Subject& subject, const PlacedLine& line) {
    return distance_text(subject, line.from.at(line.axis)) + " to " + distance_text(subject, line.to.at(line.axis));
}

/// "Dead path 180 mm": of every series where it is the same.
std::string dead_path_words(const Subject& subject, const PlacedLine& line) {
    const auto& paths = line.dead_paths;
    const double first = paths.front().second;
    if (std::ranges::all_of(paths, [&](const auto& path) { return path.second == first; }))
        return "Dead path " + distance_text(subject, first);
    std::vector<std::string> each;
    for (const auto& [series, mm] : paths) each.push_back(distance_text(subject, mm) + " of " + series);
    return "Dead paths " + listed(each);
}

std::vector<Text> line_notes(const Subject& subject, const PlacedLine& line) {
    std::vector<Text> notes{Text("At " + place_words(subject, line) + "."),
                            Text("Measured from " + reach_words(subject, line) + ": " + listed(line.errors) + ".")};
    if (off_functional_point(line)) {
        const std::string offset = offset_words(subject, line);
        notes.emplace_back(offset.empty() ? "The functional point is on it." : "Functional point: " + offset + " from it.");
    } else {
        notes.push_back(Text().quiet("Where the functional point is from it is not stated."));
    }
    if (!line.dead_paths.empty()) notes.emplace_back(dead_path_words(subject, line) + ", not drawn: the side is not stated.");
    return notes;
}

Text lines_lead(const Subject& subject, const std::vector<PlacedLine>& lines) {
    double most = 0;
    bool all_known = true;
    for (const PlacedLine& line : lines) {
        const auto off = off_functional_point(line);
        all_known = all_known && off.has_value();
        most = std::max(most, off.value_or(0));
    }
    const std::string off = most == 0 ? "through the functional point" : distance_text(subject, most) + " off the functional point";
    std::string words;
    if (lines.size() > 1)
        words = "Measured on " + count_word(lines.size()) + " lines" + (all_known ? (most == 0 ? ", " : ", up to ") + off : "");
    else if (all_known) words = "The line ran " + off;
    else words = "The line ran along " + lines.front().line.axis + " at " + place_words(subject, lines.front());
    return Text(words + "." + setup_words(subject.evaluation));
}

Text lines_caption(const LineDrawing& drawing) {
    std::string words = "Isometric, one scale. Thick: first to last target";
    const auto any = [&](auto has) { return std::ranges::any_of(drawing.lines, has); };
    if (any([](const DrawnLine& line) {
            return line.travel && (line.travel->first < line.from.at(line.axis) || line.travel->second > line.to.at(line.axis));
        }))
        words += "; dashed: travel beyond them";
    if (any([](const DrawnLine& line) { return line.offset && *line.offset != MachinePlace{}; }))
        words += "; dash-dot: path of the functional point";
    if (drawing.volume) words += "; thin dashes: travel of all three axes";
    return Text(words + "; light: from the zero of the other axes.");
}

std::string lines_alternative(const Subject& subject, const std::vector<PlacedLine>& lines, std::size_t vertical) {
    std::string words = "Measurement lines in the machine, " + std::string(axis_names.at(vertical)) + " upwards:";
    for (const PlacedLine& line : lines) {
        words += " along " + line.line.axis + " at " + place_words(subject, line) + ", from " + reach_words(subject, line);
        if (const auto off = off_functional_point(line)) words += ", " + distance_text(subject, *off) + " off the functional point";
        words += &line == &lines.back() ? "." : ";";
    }
    return words;
}

}  // namespace

std::optional<std::string> measurement_lines_title(const document::Document& document) {
    const std::vector<PlacedLine> lines = measured_lines(document);
    return lines.empty() ? std::nullopt : std::optional(lines_label(lines.size()));
}

std::optional<LinesOpening> measurement_lines(const Subject& subject) {
    const std::vector<PlacedLine> lines = measured_lines(subject.document);
    if (lines.empty()) return std::nullopt;
    const std::size_t vertical = place_of_axis(subject.document.machine->vertical).value();
    LinesOpening made;
    made.opening = {.label = lines_label(lines.size()), .anchor = "measurement-lines", .lead = lines_lead(subject, lines)};
    made.drawing.vertical = vertical;
    made.drawing.alternative = lines_alternative(subject, lines, vertical);
    const auto x = travel_of(subject, 0), y = travel_of(subject, 1), z = travel_of(subject, 2);
    if (x && y && z) {
        made.drawing.volume = {*x, *y, *z};
        std::string size;
        for (const auto& travel : *made.drawing.volume)
            size += (size.empty() ? "" : " × ") + distance_text(subject, travel.second - travel.first);
        made.drawing.volume_size = Text().quiet(size);
    }
    for (const PlacedLine& line : lines) {
        made.drawing.lines.push_back(drawn(subject, line, made.drawing.lines.size() + 1));
        made.margin.emplace_back(made.drawing.lines.back().number + "  Line along " + line.line.axis, line_notes(subject, line));
    }
    made.caption = lines_caption(made.drawing);
    std::vector<const MeasurementLine*> told;
    for (const PlacedLine& line : lines) told.push_back(&line.line);
    made.sections = setup_sections(subject, told);
    return made;
}

}  // namespace wayfolio::report
