#include "output/svg/svg_drawing.hpp"

#include "frame/dump.hpp"
#include "frame/walk.hpp"
#include "input/digest.hpp"
#include "input/encoding.hpp"
#include "output/output.hpp"
#include "output/sane_frame.hpp"

#include <fmt/format.h>

namespace wayfolio::output {

namespace {

using input::xml_text;

const frame::Group* first_figure(const std::vector<frame::Item>& items) {
    const frame::Group* figure = nullptr;
    frame::walk(items, [&](const frame::Group& group) {
        if (group.role == frame::Role::Figure) figure = &group;
        return figure ? frame::Walk::Stop : frame::Walk::On;
    });
    return figure;
}

/// What the ids of a figure begin with, so that any number of figures can stand in one web page: made of what it shows and what it was made
/// from. Of 400 000 pages with a thousand figures each, one would hold two alike.
std::string id_prefix(const frame::Frame& frame, const Metadata& metadata) {
    constexpr std::size_t letters = 8;
    const std::string digest = input::sha256_hex(metadata.identifier + "\n" + metadata.title + "\n" + frame::dump(frame));
    std::string prefix;
    for (std::size_t i = 0; i < letters; ++i) prefix += static_cast<char>('a' + std::stoi(digest.substr(4 * i, 4), nullptr, 16) % 26);
    return prefix;
}

std::string text_element(const frame::GlyphRun& run) {
    const std::string x = svg_number(run.origin.x), y = svg_number(run.origin.y);
    const std::string turn = run.rotated ? fmt::format(R"x( transform="rotate(-90 {} {})")x", x, y) : "";
    const std::string stretch =
        run.advance > frame::Paper{} ? fmt::format(R"( textLength="{}")", svg_number(run.advance)) : "";
    return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}>{}</text>\n", x, y, svg_number(run.size), turn, stretch,
                       xml_text(run.text));
}

/// The runs' text as transparent SVG text over their outlines, each as wide as its run: it can be selected, searched and read
/// aloud.
std::string text_layer(const std::vector<frame::Item>& items) {
    std::string elements;
    frame::walk(items, [&](const frame::GlyphRun& run) { elements += text_element(run); });
    if (elements.empty()) return "";
    return "<g fill-opacity=\"0\" font-family=\"sans-serif\" xml:space=\"preserve\">\n" + elements + "</g>\n";
}

/// Title, description and the data that is shown.
std::string words(const frame::Frame& frame, const Metadata& metadata, const std::string& prefix) {
    const frame::Group* figure = first_figure(frame.items);
    const std::string& description = figure && !figure->alternative.empty() ? figure->alternative.text() : metadata.subject;
    const std::string data =
        metadata.shown_data.empty() ? "" : "<metadata>" + input::xml_content(metadata.shown_data) + "</metadata>\n";
    return fmt::format("<title id=\"{0}-title\">{1}</title>\n<desc id=\"{0}-description\">{2}</desc>\n{3}", prefix,
                       xml_text(metadata.title), xml_text(description), data);
}

/// On a dark page a figure is drawn light: turned round in lightness, and in hue back again. A reader that knows no such page, and every
/// printer, passes it over (Media Queries Level 5, prefers-color-scheme; Filter Effects Module Level 1).
std::string dark_style(const std::string& prefix) {
    return fmt::format("<style>@media screen and (prefers-color-scheme: dark) {{#{}-drawing {{filter: invert(1) hue-rotate(180deg)}}}}"
                       "</style>\n",
                       prefix);
}

}  // namespace

std::string svg(const frame::Frame& frame, const Metadata& metadata, const text::Shaper& shaper) {
    require_sane(frame);
    const std::string width = svg_number(frame.width), height = svg_number(frame.height), prefix = id_prefix(frame, metadata);
    const std::string root = fmt::format(
        R"(<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="{0}pt" height="{1}pt" )"
        R"(viewBox="0 0 {0} {1}" version="1.1" role="img" aria-labelledby="{2}-title {2}-description" xml:lang="{3}">)",
        width, height, prefix, xml_text(metadata.language));
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + root + "\n" + words(frame, metadata, prefix) +
           dark_style(prefix) + "<g id=\"" + prefix + "-drawing\">\n" + svg_drawing(frame.items, shaper, prefix) + "</g>\n" +
           text_layer(frame.items) + "</svg>\n";
}

}  // namespace wayfolio::output
