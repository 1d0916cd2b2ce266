#include "certificate/quantity.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using document::Instrument;

bool is_named(const document::Document& document, const Instrument& instrument) {
    return std::ranges::any_of(document.series, [&](const document::Series& series) { return series.instrument == instrument.id; });
}

/// U of the certificate: a constant and a part for each metre. Without a probability of coverage it stands as quantities, not as
/// si:expandedMU.
void put_capability(Drafting& drafting, const Instrument& instrument, const char* what,
                    const std::optional<document::StatedCapability>& stated, std::string_view unit, std::string_view unit_per_metre) {
    if (!stated) return;
    const std::vector<Phrase> factor{
        ours(instrument.coverage_factor ? fmt::format("coverage factor {}", *instrument.coverage_factor) : "")};
    const auto put = [&](const std::string& part, double value, std::string_view in) {
        put_quantity(
            drafting,
            {.name = fmt::format("Expanded uncertainty for {}, {}", what, part), .value = value, .unit = in, .description = factor},
            "dcc:measuringEquipmentQuantity");
    };
    put("constant part", stated->constant, unit);
    put("part for each metre", stated->per_metre, unit_per_metre);
}

void put_quantities(Drafting& drafting, const Instrument& instrument) {
    if (!instrument.positioning && !instrument.straightness && !instrument.angle && !instrument.vacuum_wavelength_nm) return;
    const auto list = drafting.xml.open("dcc:measuringEquipmentQuantities");
    if (instrument.vacuum_wavelength_nm)
        put_quantity(drafting, {.name = "Vacuum wavelength", .value = instrument.vacuum_wavelength_nm, .unit = si::nanometre},
                     "dcc:measuringEquipmentQuantity");
    put_capability(drafting, instrument, "positioning", instrument.positioning, si::micrometre, si::micrometre_per_metre);
    put_capability(drafting, instrument, "straightness", instrument.straightness, si::micrometre, si::micrometre_per_metre);
    put_capability(drafting, instrument, "angle", instrument.angle, si::microradian, si::microradian_per_metre);
}

/// The certificate's number is an identification: dcc:certificate asks for a digest of its file, which the document does not have.
void put_instrument(Drafting& drafting, const Instrument& instrument, bool named) {
    XmlWriter& xml = drafting.xml;
    const auto equipment = xml.open("dcc:measuringEquipment");
    put_name(xml, is_stated(instrument.kind) ? given(instrument.kind) : given(instrument.id));
    const auto [by, to] = std::pair(instrument.certified_by, instrument.traceable_to);
    put_lines(xml, "dcc:description",
              {ours(is_stated(instrument.calibrated) ? "calibrated " + instrument.calibrated : ""),
               ours(is_stated(instrument.due) ? "next calibration due " + instrument.due : ""),
               ours(is_stated(by) ? "certificate issued by" : ""), given(by), ours(is_stated(to) ? "traceable to" : ""), given(to),
               ours(named ? "" : "the document binds it to no single measurement")});
    if (is_stated(instrument.maker)) {
        const auto manufacturer = xml.open("dcc:manufacturer");
        put_name(xml, given(instrument.maker));
    }
    if (is_stated(instrument.model)) xml.put("dcc:model", instrument.model);
    if (is_stated(instrument.serial) || is_stated(instrument.certificate)) {
        const auto identifications = xml.open("dcc:identifications");
        put_identification(xml, Issuer::Manufacturer, instrument.serial, "Serial number");
        put_identification(xml, Issuer::Other, instrument.certificate, "Calibration certificate");
    }
    put_quantities(drafting, instrument);
}

void put_square(Drafting& drafting, const document::SquarenessRequest& request) {
    XmlWriter& xml = drafting.xml;
    const auto equipment = xml.open("dcc:measuringEquipment");
    put_name(xml, ours("Reference square"));
    if (is_stated(request.square_serial) || is_stated(request.square_certificate)) {
        const auto identifications = xml.open("dcc:identifications");
        put_identification(xml, Issuer::Manufacturer, request.square_serial, "Serial number");
        put_identification(xml, Issuer::Other, request.square_certificate, "Calibration certificate");
    }
    if (!request.square_error_urad && !request.square_expanded_urad) return;
    const auto list = xml.open("dcc:measuringEquipmentQuantities");
    const auto put = [&](const char* name, const std::optional<double>& value, std::vector<Phrase> description) {
        if (value)
            put_quantity(drafting, {.name = name, .value = value, .unit = si::microradian, .description = std::move(description)},
                         "dcc:measuringEquipmentQuantity");
    };
    put("Error of the square", request.square_error_urad, {});
    put("Expanded uncertainty of the square", request.square_expanded_urad,
        {ours(request.square_coverage_factor ? fmt::format("coverage factor {}", *request.square_coverage_factor) : "")});
}

bool states_square(const document::SquarenessRequest* request) {
    return request != nullptr && (is_stated(request->square_serial) || is_stated(request->square_certificate) ||
                                  request->square_error_urad || request->square_expanded_urad);
}

}  // namespace

void put_equipment(Drafting& drafting, const std::vector<const document::Series*>& used_by, const document::SquarenessRequest* square) {
    std::vector<const Instrument*> instruments;
    for (const Instrument& instrument : drafting.document.instruments) {
        const bool used = std::ranges::any_of(used_by, [&](const document::Series* series) { return series->instrument == instrument.id; });
        if (used || !is_named(drafting.document, instrument)) instruments.push_back(&instrument);
    }
    if (instruments.empty() && !states_square(square)) return;
    const auto list = drafting.xml.open("dcc:measuringEquipments");
    for (const Instrument* instrument : instruments) put_instrument(drafting, *instrument, is_named(drafting.document, *instrument));
    if (states_square(square)) put_square(drafting, *square);
}

}  // namespace wayfolio::certificate
