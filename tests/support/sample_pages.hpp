#pragma once
#include "support/text_helpers.hpp"

#include <vector>

/// Two invented pages that use every role and every kind of item, for the tests of the outputs.
namespace wayfolio::testing {

inline frame::Point at(double x, double y) { return {units::point(x), units::point(y)}; }
inline frame::Rect box(double left, double top, double width, double height) {
    return {units::point(left), units::point(top), units::point(width), units::point(height)};
}

inline std::vector<frame::Item> words(const std::string& text, double x, double y, double size = 9,
                                      text::Weight weight = text::Weight::Regular) {
    const text::Piece piece{.text = text, .weight = weight, .colour = {26, 26, 26}};
    const text::TextStyle style{.size = units::point(size), .leading = units::point(size * 1.3), .letter_spacing = {}};
    std::vector<frame::Item> items;
    for (frame::GlyphRun& run : text::placed(shaper().line({&piece, 1}, style), at(x, y))) items.emplace_back(std::move(run));
    return items;
}

inline frame::Group group(frame::Role role, std::vector<frame::Item> items) {
    frame::Group made;
    made.role = role;
    made.items = std::move(items);
    return made;
}

inline frame::Path rule(double x1, double y1, double x2, double y2, frame::Colour colour = {26, 26, 26}) {
    return {.steps = {frame::MoveTo{at(x1, y1)}, frame::LineTo{at(x2, y2)}},
            .stroke = frame::Stroke{.colour = colour, .width = units::point(0.5)}};
}

inline frame::Group row(double y, const std::vector<std::string>& cells, frame::Role cell_role, frame::Scope scope) {
    frame::Group made = group(frame::Role::TableRow, {});
    double x = 66;
    for (const std::string& cell : cells) {
        frame::Group one = group(cell_role, words(cell, x, y, 7.5));
        one.scope = scope;
        made.items.emplace_back(std::move(one));
        x += 80;
    }
    return made;
}

inline frame::Group head_row(double y) {
    return row(y, {"Target", "Mean / \u00b5m", "2s / \u00b5m"}, frame::Role::HeadCell, frame::Scope::Column);
}

/// A head and some rows; both pages carry a part of the one table.
inline frame::Group table(double top, int first_target) {
    frame::Group body = group(frame::Role::TableBody, {});
    for (int i = 0; i < 3; ++i) {
        frame::Group one = group(frame::Role::TableRow, {});
        frame::Group name = group(frame::Role::HeadCell, words(std::to_string(first_target + i), 66, top + 14 * (i + 1), 7.5));
        name.scope = frame::Scope::Row;
        one.items.emplace_back(std::move(name));
        one.items.emplace_back(
            group(frame::Role::DataCell, words("\u2212" + std::to_string(i) + ".25", 146, top + 14 * (i + 1), 7.5)));
        one.items.emplace_back(group(frame::Role::DataCell, words("1.10", 226, top + 14 * (i + 1), 7.5)));
        body.items.emplace_back(std::move(one));
    }
    frame::Group made = group(frame::Role::Table,
                              {group(frame::Role::TableHead, {head_row(top)}), rule(66, top + 4, 306, top + 4), std::move(body)});
    made.continues = "targets";
    return made;
}

inline frame::Group figure(double left, double top) {
    frame::Path curve{.steps = {frame::MoveTo{at(left, top + 80)},
                                frame::CurveTo{at(left + 60, top - 20), at(left + 120, top + 120), at(left + 200, top + 10)}},
                      .stroke = frame::Stroke{.colour = {0, 114, 178}, .width = units::point(0.9)}};
    frame::Path marker{.steps = {frame::MoveTo{at(left + 98, top + 48)}, frame::LineTo{at(left + 102, top + 48)},
                                 frame::LineTo{at(left + 100, top + 52)}, frame::ClosePath{}},
                       .fill = frame::Colour{213, 94, 0},
                       .stroke = frame::Stroke{.colour = {26, 26, 26}, .width = units::point(0.5)}};
    frame::Group clipped = group(frame::Role::Plain, {curve, marker});
    clipped.clip = box(left, top, 200, 80);
    frame::Group made = group(frame::Role::Figure, {rule(left, top + 80, left + 200, top + 80), std::move(clipped)});
    for (frame::Item& label : words("X / m", left + 90, top + 92, 7.5)) made.items.push_back(std::move(label));
    const text::Piece upward{.text = "E / \u00b5m", .colour = {26, 26, 26}};
    for (frame::GlyphRun& run : text::placed_upwards(shaper().line({&upward, 1}, body()), at(left - 6, top + 50)))
        made.items.emplace_back(std::move(run));
    made.alternative = "Deviation of the X axis over 1.6 m: it falls to \u22124.2 \u00b5m near 0.8 m.";
    made.id = "error";
    return made;
}

inline frame::Group artifact(const std::string& head, double y) { return group(frame::Role::Artifact, words(head, 66, y, 7.5)); }

inline std::vector<frame::Item> all_of(std::vector<std::vector<frame::Item>> parts) {
    std::vector<frame::Item> items;
    for (auto& part : parts)
        for (frame::Item& item : part) items.push_back(std::move(item));
    return items;
}

inline std::vector<frame::Frame> two_pages() {
    using frame::Role;
    const frame::Link to_second{.box = box(66, 108, 90, 12), .destination = "second", .description = "Go to the opening of X"};
    const frame::Link to_web{.box = box(170, 108, 60, 12), .uri = "https://example.com/a b?c=(1)", .description = "Web page"};
    frame::Group item = group(Role::ListItem, {group(Role::ListLabel, words("1", 66, 140)),
                                               group(Role::ListBody, words("Warm up for one hour.", 80, 140))});
    frame::Group first =
        group(Role::Section,
              {artifact("Report 17 \u00b7 page 1 of 2", 48), frame::Bookmark{1, "Summary", at(66, 72)},
               group(Role::Heading1, words("X axis outside by 3.4\u202f\u00b5m", 66, 84, 16)),
               group(Role::Paragraph,
                     all_of({words("Measured value A\u00a0=\u00a0\u22125.2\u202f\u00b5m at 20\u202f\u00b0C", 66, 102)})),
               group(Role::Paragraph, all_of({words("See", 40, 118),
                                              {group(Role::LinkText, all_of({words("the opening of X", 66, 118), {to_second}}))},
                                              {group(Role::LinkText, all_of({words("this page", 170, 118), {to_web}}))}})),
               group(Role::List, {std::move(item)}), figure(90, 170),
               group(Role::Caption, words("Figure 1  Deviation against position", 66, 282, 7.5)),
               rule(66, 300, 400, 300, {138, 138, 138}), table(320, 1)});
    frame::Group heading = group(Role::Heading2, words("X axis, positioning", 66, 84, 9, text::Weight::SemiBold));
    heading.anchor = "second";
    frame::Group second =
        group(Role::Section,
              {artifact("Report 17 \u00b7 page 2 of 2", 48), table(320, 4), frame::Bookmark{2, "X axis", at(66, 72)},
               std::move(heading), group(Role::Paragraph, words("\u2300 10\u202fmm, \u0394L and \u041e\u0441\u044c X", 66, 110)),
               group(Role::Note, words("1 Not evaluated: one run only.", 66, 400, 7.5))});
    second.items.emplace_back(rule(66, 420, 400, 420));
    return {{units::point(595.28), units::point(841.89), "1", {std::move(first)}},
            {units::point(595.28), units::point(841.89), "2", {std::move(second)}}};
}

/// A figure alone, as it goes to a file of its own.
inline frame::Frame one_figure() { return {units::point(250), units::point(120), "", {figure(20, 10)}}; }

}  // namespace wayfolio::testing
