#include "frame/dump.hpp"

#include "frame/overloaded.hpp"
#include "frame/walk.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::frame {

namespace {

using units::point;

/// Hundredths of a point, without trailing zeros and never "-0". fmt does not ask the locale.
std::string number(Paper length) { return fmt::format("{}", std::round(length.in(point)*100) / 100 + 0.0); }

std::string number_pair(Point at) { return number(at.x) + "," + number(at.y); }

std::string number_box(const Rect& rect) {
    return fmt::format("{},{} {}x{}", number(rect.left), number(rect.top), number(rect.width), number(rect.height));
}

std::string colour_name(Colour colour) { return fmt::format("#{:02X}{:02X}{:02X}", colour.red, colour.green, colour.blue); }

/// Text in quotes on one line.
std::string quoted(const std::string& text) {
    std::string shown = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') shown += '\\';
        shown += c == '\n' ? ' ' : c;
    }
    return shown + '"';
}

const char* role_name(Role role) {
    switch (role) {
        case Role::Plain: return "group";
        case Role::Artifact: return "artifact";
        case Role::Section: return "section";
        case Role::Heading1: return "heading-1";
        case Role::Heading2: return "heading-2";
        case Role::Heading3: return "heading-3";
        case Role::Paragraph: return "paragraph";
        case Role::List: return "list";
        case Role::ListItem: return "list-item";
        case Role::ListLabel: return "list-label";
        case Role::ListBody: return "list-body";
        case Role::Table: return "table";
        case Role::TableHead: return "table-head";
        case Role::TableBody: return "table-body";
        case Role::TableRow: return "row";
        case Role::HeadCell: return "head-cell";
        case Role::DataCell: return "cell";
        case Role::Figure: return "figure";
        case Role::Caption: return "caption";
        case Role::Note: return "note";
        case Role::Span: return "span";
        case Role::LinkText: return "link-text";
    }
    return "unknown";
}

std::string line(const PathStep& step) {
    return std::visit(overloaded{[](const MoveTo& move) { return "M " + number_pair(move.to); },
                                 [](const LineTo& to) { return "L " + number_pair(to.to); },
                                 [](const CurveTo& c) {
                                     return "C " + number_pair(c.control1) + " " + number_pair(c.control2) + " " +
                                            number_pair(c.to);
                                 },
                                 [](const ClosePath&) { return std::string("Z"); }},
                      step);
}

std::string line(const Path& path) {
    std::string text = "path";
    if (path.fill) text += " fill " + colour_name(*path.fill);
    if (path.stroke) {
        const Stroke& stroke = *path.stroke;
        text += fmt::format(" stroke {} {}", number(stroke.width), colour_name(stroke.colour));
        for (std::size_t i = 0; i < stroke.dash.size(); ++i) text += (i == 0 ? " dash " : ",") + number(stroke.dash[i]);
        if (stroke.cap == Cap::Round) text += " round-cap";
        if (stroke.join == Join::Round) text += " round-join";
    }
    for (const PathStep& step : path.steps) text += " " + line(step);
    return text;
}

std::string line(const GlyphRun& run) {
    return fmt::format("text {} face {} size {} {} width {}{} {}", number_pair(run.origin), run.face.index, number(run.size),
                       colour_name(run.colour), number(run.advance), run.rotated ? " upwards" : "", quoted(run.text));
}

std::string line(const Image& image) {
    return fmt::format("image {} {} {} bytes", image.format == Image::Format::Png ? "png" : "svg", number_box(image.box),
                       image.bytes ? image.bytes->size() : 0);
}

std::string line(const Link& link) {
    const std::string target = link.uri.empty() ? "to " + link.destination : "uri " + link.uri;
    return fmt::format("link {} {} {}", number_box(link.box), target, quoted(link.description));
}

std::string line(const Bookmark& bookmark) {
    return fmt::format("bookmark {} {} {}", bookmark.level, number_pair(bookmark.at), quoted(bookmark.title));
}

std::string line(const Group& group) {
    std::string text = role_name(group.role);
    if (!group.id.empty()) text += " id " + group.id;
    if (!group.anchor.empty()) text += " anchor " + group.anchor;
    if (!group.continues.empty()) text += " continues " + group.continues;
    if (group.scope == Scope::Column) text += " scope column";
    if (group.scope == Scope::Row) text += " scope row";
    if (group.column_span != 1) text += fmt::format(" columns {}", group.column_span);
    if (group.row_span != 1) text += fmt::format(" rows {}", group.row_span);
    if (group.clip) text += " clip " + number_box(*group.clip);
    if (group.box) text += " box " + number_box(*group.box);
    if (!group.alternative.empty()) text += " " + quoted(group.alternative);
    return text;
}

}  // namespace

std::string dump(const Frame& frame) {
    std::string text = fmt::format("page {}x{}{}\n", number(frame.width), number(frame.height),
                                   frame.label.empty() ? "" : " label " + frame.label);
    walk(frame.items,
         [&](const auto& kind, const Around& around) { text += std::string(2 * (around.size() + 1), ' ') + line(kind) + "\n"; });
    return text;
}

}  // namespace wayfolio::frame
