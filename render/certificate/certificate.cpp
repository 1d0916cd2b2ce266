#include "certificate/drafting.hpp"

#include "units/version.hpp"

namespace wayfolio::certificate {
namespace {

void put_software(XmlWriter& xml) {
    const auto list = xml.open("dcc:dccSoftware");
    const auto software = xml.open("dcc:software");
    put_name(xml, ours("wayfolio"));
    xml.put("dcc:release", version());
    xml.put("dcc:type", "application");
}

void put_certificate(Drafting& drafting) {
    XmlWriter& xml = drafting.xml;
    const auto root = xml.open("dcc:digitalCalibrationCertificate",
                               {{"xmlns:dcc", "https://ptb.de/dcc"}, {"xmlns:si", "https://ptb.de/si"}, {"schemaVersion", "3.3.0"}});
    {
        const auto administrative = xml.open("dcc:administrativeData");
        put_software(xml);
        put_core_data(drafting);
        put_items(drafting);
        put_laboratory(drafting);
        put_persons(drafting);
        put_customer(drafting);
        put_statements(drafting);
    }
    const auto results = xml.open("dcc:measurementResults");
    for (std::size_t place = 0; place < drafting.document.series.size(); ++place) put_series_result(drafting, place);
    for (std::size_t place = 0; place < drafting.evaluation.squareness.size(); ++place) put_squareness_result(drafting, place);
}

/// What a reader must know before he reads on.
std::string head(const std::vector<Missing>& missing) {
    XmlWriter xml;
    xml.comment("Draft of a digital calibration certificate, without signature: not a certificate. Written by wayfolio " +
                std::string(version()) + " after the published structure of DCC 3.3.0; not checked against its schema.");
    if (missing.empty()) xml.comment("The document states all that this program knows the structure to ask for.");
    for (const Missing& one : missing) xml.comment("Missing for a certificate: " + one.what + " (" + one.pointer + ")");
    return xml.text();
}

}  // namespace

Certificate certificate_draft(const document::Document& document, const evaluate::Evaluation& evaluation) {
    Drafting drafting{document, evaluation};
    put_certificate(drafting);
    return {"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + head(drafting.missing) + drafting.xml.text(), drafting.missing};
}

}  // namespace wayfolio::certificate
