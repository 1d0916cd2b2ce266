#include "page/issuer.hpp"

#include <algorithm>
#include <iterator>

namespace wayfolio::page {
namespace {

constexpr double logo_top = 37, logo_side = 24, words_beside_logo = 34, between_columns = 12;
constexpr std::size_t most_lines = 5;

Paper words_left(const layouts::PaperGrid& grid, bool logo) { return grid.left + pt(logo ? words_beside_logo : 0); }

/// The lines below the name, broken; one line each where that is too many, and certificates in as many words as there is room for.
struct IssuerLines {
    std::vector<Text> lines;
    bool cut = false;
};

IssuerLines lines_of(const report::Issuer& issuer, bool logo, const Tools& tools) {
    const auto& grid = tools.layout.grid();
    const Paper width = grid.margin_left - pt(between_columns) - words_left(grid, logo);
    const auto broken = [&](const std::string& words) {
        std::vector<Text> lines;
        for (const text::Line& line : tools.shaper.paragraph(plot::pieces(tools, Text(words), {}), plot::text_style(tools, {}), width)) {
            std::string said;
            for (const frame::GlyphRun& run : line.runs) said += run.text;
            lines.emplace_back(said);
        }
        return lines;
    };
    IssuerLines made;
    const std::size_t most = most_lines - 1;  // below the name
    for (const std::string& words : issuer.lines) std::ranges::copy(broken(words), std::back_inserter(made.lines));
    const std::size_t reserved = issuer.traceability.empty() ? 0 : 1;
    if (made.lines.size() + reserved > most) {
        made = {.lines = {}, .cut = true};
        for (const std::string& words : issuer.lines) made.lines.push_back(fitted(tools, words, {}, width));
    }
    if (reserved == 0) return made;
    const auto fits = [&](const std::string& words) { return made.lines.size() + broken(words).size() <= most; };
    const auto longest = std::ranges::find_if(issuer.traceability, fits);
    if (longest != issuer.traceability.end()) std::ranges::copy(broken(*longest), std::back_inserter(made.lines));
    else made.lines.push_back(fitted(tools, issuer.traceability.back(), {}, width));
    return made;
}

Group logo_of(const document::Picture& picture, const layouts::PaperGrid& grid) {
    const auto format = picture.format == document::Picture::Format::Svg ? frame::Image::Format::Svg : frame::Image::Format::Png;
    const Rect box{grid.left, pt(logo_top), pt(logo_side), pt(logo_side)};
    return artifact({frame::Image{.box = box, .format = format, .bytes = std::make_shared<const std::string>(picture.bytes)}});
}

}  // namespace

Text fitted(const Tools& tools, const std::string& words, const Look& look, Paper width) {
    if (plot::width_of(tools, Text(words), look) <= width) return Text(words);
    const auto cut = [&](std::size_t end) { return Text(words.substr(0, end) + "\u2026"); };
    std::vector<std::size_t> ends;  // of letters: not before a byte that goes on with one (UTF-8)
    for (std::size_t end = 0; end < words.size(); ++end)
        if ((static_cast<unsigned char>(words[end]) & 0xC0) != 0x80) ends.push_back(end);
    const auto too_wide =
        std::ranges::partition_point(ends, [&](std::size_t end) { return plot::width_of(tools, cut(end), look) <= width; });
    return cut(too_wide == ends.begin() ? 0 : *std::prev(too_wide));
}

bool cuts_issuer(const report::Issuer& issuer, bool logo, const Tools& tools) {
    const auto& grid = tools.layout.grid();
    return lines_of(issuer, logo, tools).cut ||
           plot::width_of(tools, Text().strong(issuer.name), {}) > grid.margin_left - pt(between_columns) - words_left(grid, logo) ||
           plot::width_of(tools, Text().strong(issuer.report), {}) > grid.margin_right - grid.margin_left;
}

std::vector<Group> issuer_block(const report::RunningText& running, const Tools& tools, const std::string& page) {
    const auto& grid = tools.layout.grid();
    const report::Issuer& issuer = *running.issuer;
    const Paper left = words_left(grid, running.logo.has_value()), leading = tools.layout.type(TypeRole::Small).leading;
    const Look grey{.colour = ColourRole::Grey};
    std::vector<Group> made;
    if (running.logo) made.push_back(logo_of(*running.logo, grid));
    Point at{left, issuer_first_baseline};
    const auto add = [&](const Text& words, const Look& look, frame::Role role = frame::Role::Paragraph) {
        made.push_back(text_line(tools, words, look, at, Align::Left, role));
        at.y += leading;
    };
    const auto strong = [&](const std::string& words, Paper width) {
        return report::emphasised(fitted(tools, words, {}, width * 0.93));  // semi-bold letters are wider
    };
    add(strong(issuer.name, grid.margin_left - pt(between_columns) - left), {});
    for (const Text& line : lines_of(issuer, running.logo.has_value(), tools).lines) add(line, {});
    at = {grid.margin_left, issuer_first_baseline};
    const Paper margin = grid.margin_right - grid.margin_left;
    add(strong(issuer.report, margin), {});
    for (const std::string& line : issuer.edition) add(fitted(tools, line, grey, margin), grey);
    if (running.draft.empty()) add(Text(page), grey, frame::Role::Artifact);
    else {
        made.push_back(text_line(tools, page + "   ", grey, at, Align::Left, frame::Role::Artifact));
        at.x += plot::width_of(tools, Text(page + "   "), grey);
        add(Text().strong(running.draft), grey);
    }
    return made;
}

}  // namespace wayfolio::page
