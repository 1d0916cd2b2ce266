#include "evaluate/review/lacking.hpp"

#include "document/states.hpp"
#include <fmt/format.h>
#include <algorithm>
#include <set>
#include <tuple>
#include <array>

namespace wayfolio::evaluate {
namespace {

using document::Document;

/// One thing that a purpose asks for, and whether the document has it.
struct Item {
    const char* purpose;
    const char* what;
    const char* pointer;
    bool (*stated)(const Document&);
};

bool has_laboratory(const Document& document) { return document.job.laboratory.has_value(); }
bool has_customer(const Document& document) { return document.job.customer.has_value(); }
bool has_machine(const Document& document) { return document.machine.has_value(); }

/// Whether anybody's role contains one of `parts`, whatever its case.
bool has_person(const Document& document, std::initializer_list<const char*> parts) {
    return std::any_of(document.job.people.begin(), document.job.people.end(), [&](const auto& person) {
        std::string role = person.role;
        for (char& letter : role) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
        return std::any_of(parts.begin(), parts.end(), [&](const char* part) { return role.find(part) != std::string::npos; });
    });
}

constexpr std::string_view date_of_performance = "ISO/IEC 17025 7.8.2.1 i";

constexpr std::array accreditation_items{
    Item{"ISO/IEC 17025 7.8.2.1 a", "title", "/job/title", [](const Document& d) { return !d.job.title.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 b", "name of the laboratory", "/job/laboratory/name",
         [](const Document& d) { return has_laboratory(d) && !d.job.laboratory->name.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 b", "address of the laboratory", "/job/laboratory/address",
         [](const Document& d) { return has_laboratory(d) && !d.job.laboratory->address.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 c", "place of the measurement", "/job/place",
         [](const Document& d) { return !d.job.place.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 d", "number that identifies the report", "/job/number",
         [](const Document& d) { return !d.job.number.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 e", "name of the customer", "/job/customer/name",
         [](const Document& d) { return has_customer(d) && !d.job.customer->name.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 e", "contact of the customer", "/job/customer/contact",
         [](const Document& d) {
             return has_customer(d) && !(d.job.customer->contact.empty() && d.job.customer->address.empty());
         }},
    Item{"ISO/IEC 17025 7.8.2.1 f", "method", "/job/method", [](const Document& d) { return !d.job.method.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 g", "maker and model of the machine", "/machine/model",
         [](const Document& d) { return has_machine(d) && !d.machine->maker.empty() && !d.machine->model.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 g", "serial number of the machine", "/machine/serial",
         [](const Document& d) { return has_machine(d) && !d.machine->serial.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 g", "condition of the machine", "/machine/condition",
         [](const Document& d) { return has_machine(d) && !d.machine->condition.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 i", "date of the measurement", "/job/measured/from",
         [](const Document& d) { return !d.job.measured_from.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 j", "date of issue", "/job/issued", [](const Document& d) { return !d.job.issued.empty(); }},
    Item{"ISO/IEC 17025 7.8.2.1 o", "person who authorizes the report", "/job/people",
         [](const Document& d) {
             return has_person(d, {"approv", "author", "releas"});
         }},
    Item{"ISO/IEC 17025 7.8.4.1 a", "measurement uncertainty, or what it is computed from", "/uncertainty",
         [](const Document& d) {
             const bool from_instrument = std::any_of(d.instruments.begin(), d.instruments.end(), [](const auto& instrument) {
                 return instrument.positioning || instrument.straightness || instrument.angle;
             });
             return from_instrument || !d.uncertainty.stated.empty() || !d.uncertainty.contributors.empty();
         }},
    Item{"ISO/IEC 17025 7.8.4.1 b", "environmental conditions", "/environment/samples",
         [](const Document& d) { return d.environment && !d.environment->samples.empty(); }},
};

constexpr std::array machine_items{
    Item{"ISO 230-2 test report", "kind of the machine", "/machine/kind",
         [](const Document& d) { return has_machine(d) && !d.machine->kind.empty(); }},
    Item{"ISO 230-2 test report", "person who measured", "/job/people",
         [](const Document& d) {
             return has_person(d, {"measur", "operator", "engineer", "technician"});
         }},
    Item{"ISO 230-2 test report", "feed speed between the targets", "/setup/feed_mm_per_min",
         [](const Document& d) { return d.setup && (d.setup->feed_mm_per_min || d.setup->feed_deg_per_min); }},
    Item{"ISO 230-2 test report", "dwell at the targets", "/setup/dwell_s",
         [](const Document& d) { return d.setup && d.setup->dwell_s; }},
    Item{"ISO 230-2 test report", "position of the measurement line", "/setup/measurement_lines",
         [](const Document& d) { return d.setup && !d.setup->lines.empty(); }},
};

void add_missing(std::vector<Lack>& lacking, const Document& document, const Item& item) {
    if (!item.stated(document)) lacking.push_back({item.purpose, item.what, item.pointer});
}

constexpr std::string_view traceability = "ISO/IEC 17025 7.8.4.1 c";

/// What a certificate is lacking in, and where it would stand.
struct CertificateItem {
    const char* what;
    const char* key;
    std::string document::Instrument::*member;
};
constexpr std::array certificate_items{
    CertificateItem{"certificate", "certificate", &document::Instrument::certificate},
    CertificateItem{"issuer of the certificate", "certified_by", &document::Instrument::certified_by},
    CertificateItem{"date of calibration", "calibrated", &document::Instrument::calibrated},
    CertificateItem{"traceability to the SI", "traceable_to", &document::Instrument::traceable_to},
};

/// Traceability rests on the certificate of each instrument and of each square, and on knowing which one measured what.
void add_traceability(std::vector<Lack>& lacking, const Document& document) {
    const std::string purpose(traceability);
    if (document.instruments.empty()) lacking.push_back({purpose, "instruments and their certificates", "/instruments"});
    for (std::size_t i = 0; i < document.instruments.size(); ++i)
        for (const CertificateItem& item : certificate_items)
            if ((document.instruments[i].*item.member).empty())
                lacking.push_back({purpose, fmt::format("{} of {}", item.what, name_of_instrument(document.instruments[i])),
                                   fmt::format("/instruments/{}/{}", i, item.key)});
    for (std::size_t i = 0; i < document.squareness.size(); ++i) {
        const auto& square = document.squareness[i];
        if (square.square_certificate.empty() && (square.square_error_urad || square.square_expanded_urad || !square.square_serial.empty()))
            lacking.push_back({purpose, fmt::format("certificate of the square for {} and {}", square.axes[0], square.axes[1]),
                               fmt::format("/squareness/{}/square/certificate", i)});
    }
    for (std::size_t i = 0; i < document.series.size() && !document.instruments.empty(); ++i)
        if (document.series[i].instrument.empty())
            lacking.push_back({purpose, fmt::format("instrument of {}", name_of_series(document.series[i])),
                               fmt::format("/series/{}/instrument", i)});
}

/// When each series was measured; of a single one the job's own dates say it.
void add_times(std::vector<Lack>& lacking, const Document& document) {
    if (document.series.size() == 1 && !document.job.measured_from.empty()) return;
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const auto& runs = document.series[i].runs;
        if (runs.empty() || std::any_of(runs.begin(), runs.end(), [](const auto& run) { return !run.started.empty(); })) continue;
        lacking.push_back({std::string(date_of_performance), fmt::format("time of the runs of {}", name_of_series(document.series[i])),
                           fmt::format("/series/{}/runs", i)});
    }
}

}  // namespace

void add_lacking_for_accreditation(std::vector<Lack>& lacking, const Document& document) {
    for (const auto& item : accreditation_items) add_missing(lacking, document, item);
    add_times(lacking, document);
    add_traceability(lacking, document);
}

void add_lacking_for_machine_report(std::vector<Lack>& lacking, const Document& document) {
    const char* purpose = "ISO 230-2 test report";
    for (const auto& item : machine_items) add_missing(lacking, document, item);
    for (std::size_t i = 0; i < document.instruments.size(); ++i)
        if (document.instruments[i].serial.empty())
            lacking.push_back({purpose, fmt::format("serial number of {}", name_of_instrument(document.instruments[i])),
                               fmt::format("/instruments/{}/serial", i)});
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const auto& series = document.series[i];
        const std::string name = name_of_series(series);
        const auto at = [&](const char* key) { return fmt::format("/series/{}/{}", i, key); };
        const auto* axis = document::find_axis(document, series.error.axis);
        if (!series.sign_stated) lacking.push_back({purpose, fmt::format("sign of the readings of {}", name), at("sign")});
        if (series.state.empty()) lacking.push_back({purpose, fmt::format("state of the machine in {}", name), at("state")});
        if (axis == nullptr || !axis->travel)
            lacking.push_back({purpose, fmt::format("travel of axis {}", series.error.axis), "/machine/axes"});
    }
}

FindingCode code_of_purpose(std::string_view purpose) {
    if (purpose.starts_with("ISO/IEC 17025")) return FindingCode::MissingForAccreditation;
    if (purpose == "decision") return FindingCode::MissingForDecision;
    return purpose == "uncertainty" ? FindingCode::MissingForUncertainty : FindingCode::MissingForTestReport;
}

FindingCode code_of(const Lack& lack) {
    const bool uncertainty = lack.purpose == "uncertainty";
    if (uncertainty && lack.pointer == "/drift") return FindingCode::DriftRecordMissing;
    if (uncertainty && lack.pointer == "/environment/samples") return FindingCode::MachineTemperaturesMissing;
    if (lack.pointer == "/machine/condition") return FindingCode::MachineConditionMissing;
    if (lack.pointer.ends_with("/vacuum_wavelength_nm")) return FindingCode::WavelengthAssumed;
    if (lack.purpose == traceability && lack.pointer.ends_with("/traceable_to")) return FindingCode::TraceabilityMissing;
    if (lack.purpose == traceability && lack.pointer.ends_with("/instrument")) return FindingCode::SeriesInstrumentMissing;
    if (lack.purpose == date_of_performance && lack.pointer.ends_with("/runs")) return FindingCode::SeriesTimeMissing;
    return code_of_purpose(lack.purpose);
}

std::vector<Lack> lacking_in(const Document& document) {
    std::vector<Lack> lacking;
    add_lacking_for_accreditation(lacking, document);
    add_lacking_for_machine_report(lacking, document);
    add_lacking_for_decision(lacking, document);
    add_lacking_for_uncertainty(lacking, document);
    // Two series of one axis lack its travel but once.
    std::vector<Lack> once;
    std::set<std::tuple<std::string, std::string, std::string>> told;
    for (auto& lack : lacking)
        if (told.emplace(lack.purpose, lack.what, lack.pointer).second) once.push_back(std::move(lack));
    return once;
}

}  // namespace wayfolio::evaluate
