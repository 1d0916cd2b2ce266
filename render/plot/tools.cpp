#include "plot/tools.hpp"

namespace wayfolio::plot {

std::vector<text::Piece> pieces(const Tools& tools, const report::Text& words, const Look& look) {
    std::vector<text::Piece> all;
    all.reserve(words.spans().size());
    for (const report::Span& span : words.spans()) {
        text::Piece piece{.text = span.text, .colour = tools.layout.colour(look.colour)};
        switch (span.emphasis) {
            case report::Emphasis::Plain: break;
            case report::Emphasis::Symbol: piece.slant = text::Slant::Italic; break;
            case report::Emphasis::Strong: piece.weight = text::Weight::SemiBold; break;
            case report::Emphasis::Quiet: piece.colour = tools.layout.colour(ColourRole::Grey); break;
        }
        all.push_back(std::move(piece));
    }
    return all;
}

text::TextStyle text_style(const Tools& tools, const Look& look) {
    const layouts::TypeSize& type = tools.layout.type(look.type);
    return {.size = type.size, .leading = type.leading, .letter_spacing = type.letter_spacing};
}

text::Line shape(const Tools& tools, const report::Text& words, const Look& look) {
    return tools.shaper.line(pieces(tools, words, look), text_style(tools, look));
}

Paper width_of(const Tools& tools, const report::Text& words, const Look& look) {
    return words.empty() ? Paper{} : tools.shaper.width(pieces(tools, words, look), text_style(tools, look));
}

Paper put(std::vector<Item>& into, const Tools& tools, const report::Text& words, const Look& look, Point at, Align align) {
    if (words.empty()) return {};
    text::Line line = shape(tools, words, look);
    const Paper width = line.width;
    const double before = align == Align::Left ? 0 : align == Align::Centre ? 0.5 : 1;
    for (frame::GlyphRun& run : text::placed(std::move(line), {at.x - width * before, at.y})) into.emplace_back(std::move(run));
    return width;
}

frame::Group grouped(frame::Role role, std::vector<Item> items) {
    frame::Group group;
    group.role = role;
    group.items = std::move(items);
    return group;
}

}  // namespace wayfolio::plot
