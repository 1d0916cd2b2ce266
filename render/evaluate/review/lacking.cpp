#include "evaluate/review/lacking.hpp"

#include <fmt/format.h>
#include <algorithm>
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
    Item{"ISO 230-2 test report", "feed between the targets", "/setup/feed_mm_per_min",
         [](const Document& d) { return d.setup && (d.setup->feed_mm_per_min || d.setup->feed_deg_per_min); }},
    Item{"ISO 230-2 test report", "dwell at the targets", "/setup/dwell_s",
         [](const Document& d) { return d.setup && d.setup->dwell_s; }},
    Item{"ISO 230-2 test report", "position of the measurement line", "/setup/measurement_lines",
         [](const Document& d) { return d.setup && !d.setup->lines.empty(); }},
};

void add_missing(std::vector<Lack>& lacking, const Document& document, const Item& item) {
    if (!item.stated(document)) lacking.push_back({item.purpose, item.what, item.pointer});
}

/// 7.8.4.1 c: traceability rests on each instrument's certificate.
void add_traceability(std::vector<Lack>& lacking, const Document& document) {
    const char* purpose = "ISO/IEC 17025 7.8.4.1 c";
    if (document.instruments.empty()) lacking.push_back({purpose, "instruments and their certificates", "/instruments"});
    for (std::size_t i = 0; i < document.instruments.size(); ++i) {
        const auto& instrument = document.instruments[i];
        if (instrument.certificate.empty())
            lacking.push_back({purpose, fmt::format("certificate of instrument {}", instrument.id),
                               fmt::format("/instruments/{}/certificate", i)});
        if (instrument.calibrated.empty())
            lacking.push_back({purpose, fmt::format("date of calibration of instrument {}", instrument.id),
                               fmt::format("/instruments/{}/calibrated", i)});
    }
}

}  // namespace

void add_lacking_for_accreditation(std::vector<Lack>& lacking, const Document& document) {
    for (const auto& item : accreditation_items) add_missing(lacking, document, item);
    add_traceability(lacking, document);
}

void add_lacking_for_machine_report(std::vector<Lack>& lacking, const Document& document) {
    const char* purpose = "ISO 230-2 test report";
    for (const auto& item : machine_items) add_missing(lacking, document, item);
    for (std::size_t i = 0; i < document.instruments.size(); ++i)
        if (document.instruments[i].serial.empty())
            lacking.push_back({purpose, fmt::format("serial number of instrument {}", document.instruments[i].id),
                               fmt::format("/instruments/{}/serial", i)});
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const auto& series = document.series[i];
        const auto at = [&](const char* key) { return fmt::format("/series/{}/{}", i, key); };
        const auto* axis = document::find_axis(document, series.error.axis);
        if (!series.sign_stated) lacking.push_back({purpose, fmt::format("sign of the readings of {}", series.id), at("sign")});
        if (series.state.empty()) lacking.push_back({purpose, fmt::format("state of the machine in {}", series.id), at("state")});
        if (axis == nullptr || !axis->travel)
            lacking.push_back({purpose, fmt::format("travel of axis {}", series.error.axis), "/machine/axes"});
    }
}

FindingCode code_of(const Lack& lack) {
    if (lack.purpose.starts_with("ISO/IEC 17025")) return FindingCode::MissingForAccreditation;
    if (lack.purpose == "decision") return FindingCode::MissingForDecision;
    if (lack.purpose != "uncertainty") return FindingCode::MissingForTestReport;
    if (lack.pointer == "/drift") return FindingCode::DriftRecordMissing;
    if (lack.pointer == "/environment/samples") return FindingCode::MachineTemperaturesMissing;
    return FindingCode::MissingForUncertainty;
}

std::vector<Lack> lacking_in(const Document& document) {
    std::vector<Lack> lacking;
    add_lacking_for_accreditation(lacking, document);
    add_lacking_for_machine_report(lacking, document);
    add_lacking_for_decision(lacking, document);
    add_lacking_for_uncertainty(lacking, document);
    // Two series of one axis lack its travel but once.
    std::vector<Lack> once;
    for (auto& lack : lacking) {
        const auto same = [&](const Lack& other) {
            return other.purpose == lack.purpose && other.what == lack.what && other.pointer == lack.pointer;
        };
        if (std::none_of(once.begin(), once.end(), same)) once.push_back(std::move(lack));
    }
    return once;
}

}  // namespace wayfolio::evaluate
