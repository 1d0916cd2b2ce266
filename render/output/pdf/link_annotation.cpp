#include "output/pdf/link_annotation.hpp"

#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace wayfolio::output {

namespace {

/// A rectangle in points from the page's lower left.
struct Area {
    double left, bottom, right, top;
};

Area area_of(const frame::Rect& box, double page_height) {
    return {box.left.in(units::point), page_height - box.bottom().in(units::point), box.right().in(units::point), page_height - box.top.in(units::point)};
}

/// The rectangle around all, and where they are several, each by its corners against the clock.
std::string places(const TagRecord& link) {
    std::string corners;
    Area around = area_of(link.links.front()->box, link.page_height);
    for (const frame::Link* one : link.links) {
        const auto [left, bottom, right, top] = area_of(one->box, link.page_height);
        around = {std::min(around.left, left), std::min(around.bottom, bottom), std::max(around.right, right), std::max(around.top, top)};
        corners += fmt::format(" {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f}", left, bottom, right, bottom, right, top, left, top);
    }
    return fmt::format("/Rect [{:.2f} {:.2f} {:.2f} {:.2f}]{}", around.left, around.bottom, around.right, around.top,
                       link.links.size() > 1 ? fmt::format(" /QuadPoints [{}]", corners) : "");
}

/// A URI in printable ASCII: all else is percent-encoded (RFC 3986, 2.1).
std::string escaped_uri(const std::string& uri) {
    constexpr std::string_view special = "'\"\\()<>^`{|}";
    std::string escaped;
    for (const char c : uri) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte > 0x20 && byte < 0x7f && special.find(c) == std::string_view::npos;
        escaped += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
    }
    return escaped;
}

}  // namespace

std::string link_annotation(const TagRecord& link, int owner, const std::map<std::string, Destination>& destinations, const std::vector<int>& page_objects) {
    const frame::Link& first = *link.links.front();
    std::string leads_to;
    if (!first.uri.empty()) leads_to = fmt::format("/A <</Type /Action /S /URI /URI ({})>>", escaped_uri(first.uri));
    else if (const auto found = destinations.find(first.destination); found != destinations.end()) leads_to = "/Dest " + in_words(found->second, page_objects);
    else throw std::logic_error("a link goes to \"" + first.destination + "\", which no group has as its anchor");
    constexpr int printed = 4;  // ISO 32000-1 table 165
    return fmt::format("<</Type /Annot /Subtype /Link {} /Border [0 0 0] {} /F {} /StructParent {} /Contents {}>>", places(link), leads_to, printed, owner,
                       Handle::newUnicodeString(first.description).unparse());
}

}  // namespace wayfolio::output
