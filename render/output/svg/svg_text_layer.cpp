#include "output/svg/svg_text_layer.hpp"

#include "input/xml_text.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::output {

namespace {

/// Shortest form of a number rounded to a thousandth of a point; fmt does not ask the locale.
std::string number(frame::Paper length) { return fmt::format("{}", std::round(length.in(units::point)*1000) / 1000 + 0.0); }

std::string text_element(const frame::GlyphRun& run) {
    const std::string x = number(run.origin.x), y = number(run.origin.y);
    const std::string turn = run.rotated ? fmt::format(R"x( transform="rotate(-90 {} {})")x", x, y) : "";
    const std::string stretch = run.advance > frame::Paper{}
                                    ? fmt::format(R"( textLength="{}" lengthAdjust="spacingAndGlyphs")", number(run.advance))
                                    : "";
    return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}>{}</text>\n", x, y, number(run.size), turn, stretch,
                       input::xml_text(run.text));
}

void collect(const std::vector<frame::Item>& items, std::string& elements) {
    for (const frame::Item& item : items) {
        if (const auto* run = std::get_if<frame::GlyphRun>(&item)) elements += text_element(*run);
        if (const auto* group = std::get_if<frame::Group>(&item)) collect(group->items, elements);
    }
}

}  // namespace

std::string text_layer(const std::vector<frame::Item>& items) {
    std::string elements;
    collect(items, elements);
    if (elements.empty()) return "";
    return "<g fill-opacity=\"0\" font-family=\"sans-serif\" xml:space=\"preserve\">\n" + elements + "</g>\n";
}

}  // namespace wayfolio::output
