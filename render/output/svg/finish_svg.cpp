#include "output/svg/finish_svg.hpp"

#include "input/xml_text.hpp"
#include "output/svg/svg_ids.hpp"
#include "output/svg/svg_text_layer.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace wayfolio::output {

namespace {

const frame::Group* first_figure(const std::vector<frame::Item>& items) {
    for (const frame::Item& item : items) {
        const auto* group = std::get_if<frame::Group>(&item);
        if (!group) continue;
        if (group->role == frame::Role::Figure) return group;
        if (const auto* inner = first_figure(group->items)) return inner;
    }
    return nullptr;
}

/// A figure's id as an XML name, so that several figures can stand in one page without a clash.
std::string id_prefix(const frame::Group* figure) {
    std::string prefix = "figure-";
    if (figure && !figure->id.empty()) {
        for (const char c : figure->id) prefix += std::isalnum(static_cast<unsigned char>(c)) ? c : '-';
        prefix += '-';
    }
    return prefix;
}

}  // namespace

std::string finish_svg(std::string bytes, const frame::Frame& frame, const Metadata& metadata) {
    const frame::Group* figure = first_figure(frame.items);
    const std::string prefix = id_prefix(figure);
    std::string svg = with_steady_ids(bytes, prefix);
    const std::size_t root = svg.find("<svg ");
    const std::size_t root_end = svg.find('>', root), close = svg.rfind("</svg>");
    if (root == std::string::npos || root_end == std::string::npos || close == std::string::npos)
        throw std::logic_error("Cairo's SVG has not the expected form");
    const std::string description = figure && !figure->alternative.empty() ? figure->alternative : metadata.subject;
    const std::string attributes = fmt::format(R"( role="img" aria-labelledby="{0}title {0}description" xml:lang="{1}")", prefix,
                                               input::xml_text(metadata.language));
    std::string words = fmt::format("\n<title id=\"{0}title\">{1}</title>\n<desc id=\"{0}description\">{2}</desc>", prefix,
                                          input::xml_text(metadata.title), input::xml_text(description));
    if (!metadata.shown_data.empty()) words += "\n<metadata>" + input::xml_text(metadata.shown_data) + "</metadata>";
    return svg.substr(0, root_end) + attributes + ">" + words + svg.substr(root_end + 1, close - root_end - 1) +
           text_layer(frame.items) + svg.substr(close);
}

}  // namespace wayfolio::output
