#include "certificate/drafting.hpp"

#include "input/encoding.hpp"

#include <algorithm>

namespace wayfolio::certificate {
namespace {

std::string_view issuer_word(Issuer issuer) {
    switch (issuer) {
        case Issuer::Manufacturer: return "manufacturer";
        case Issuer::Customer: return "customer";
        case Issuer::Laboratory: return "calibrationLaboratory";
        case Issuer::Other: break;
    }
    return "other";
}

}  // namespace

void Drafting::lacks(const std::string& what, const std::string& pointer) {
    xml.comment("Missing: " + what + " (" + pointer + ")");
    if (std::ranges::find(missing, Missing{what, pointer}) == missing.end()) missing.push_back({what, pointer});
}

void Drafting::put_or_lack(std::string_view element, const std::string& stated, const std::string& what, const std::string& pointer) {
    if (is_stated(stated)) xml.put(element, stated);
    else lacks(what, pointer);
}

// What XML cannot hold becomes white space, and white space says nothing.
bool is_stated(std::string_view words) { return !trimmed(input::xml_text(words)).empty(); }

void put_lines(XmlWriter& xml, std::string_view element, const std::vector<Phrase>& lines) {
    if (std::ranges::none_of(lines, [](const Phrase& line) { return is_stated(line.text); })) return;
    const auto open = xml.open(element);
    for (const Phrase& line : lines)
        if (is_stated(line.text))
            xml.put("dcc:content", line.text, line.ours ? XmlWriter::Attributes{{"lang", "en"}} : XmlWriter::Attributes{});
}

void put_identification(XmlWriter& xml, Issuer issuer, const std::string& value, const std::string& name) {
    if (!is_stated(value)) return;
    const auto identification = xml.open("dcc:identification");
    xml.put("dcc:issuer", issuer_word(issuer));
    xml.put("dcc:value", value);
    put_name(xml, ours(name));
}

std::string quantity_id(const std::string& measurement, std::string_view parameter) { return measurement + "-" + std::string(parameter); }

std::string local_id(const std::string& measurement, std::size_t place) {
    return quantity_id(measurement, "local-" + std::to_string(place + 1));
}

std::vector<std::string> axes_measured(const document::Document& document) {
    std::vector<std::string> axes;
    for (const document::Series& series : document.series)
        if (std::ranges::find(axes, series.error.axis) == axes.end()) axes.push_back(series.error.axis);
    return axes;
}

std::optional<std::string> axis_item_id(const document::Document& document, std::string_view axis) {
    const std::vector<std::string> axes = axes_measured(document);
    const auto found = std::ranges::find(axes, axis);
    return found == axes.end() ? std::nullopt : std::optional("axis-" + std::to_string(found - axes.begin() + 1));
}

}  // namespace wayfolio::certificate
