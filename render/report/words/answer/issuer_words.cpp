#include "report/words/passages.hpp"

#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string edition_replaced(const document::Replaces& replaced) {
    return replaced.revision ? "revision " + std::to_string(*replaced.revision) : "report " + replaced.number;
}

/// "Traceable to the SI: LI-2291 (laser interferometer), TS-118 (thermometer)", the same without what they are of, and their number.
/// Only who says through what may be called traceable.
std::vector<std::string> certificates_words(const document::Document& document) {
    std::vector<std::string> with_kinds, numbers;
    bool traceable = true;
    for (const document::Instrument& instrument : document.instruments) {
        traceable = traceable && !instrument.traceable_to.empty() && !instrument.certificate.empty();
        if (instrument.certificate.empty()) continue;
        add_once(numbers, instrument.certificate);
        add_once(with_kinds, instrument.certificate + (instrument.kind.empty() ? "" : " (" + instrument.kind + ")"));
    }
    if (numbers.empty()) return {};
    const std::string opening = traceable ? "Traceable to the SI: " : "Calibration certificates: ";
    return {opening + listed(with_kinds), opening + listed(numbers),
            (traceable ? "Traceable to the SI by " : "With ") + count_word(numbers.size()) +
                (numbers.size() == 1 ? " certificate" : " certificates") + ", listed with the instruments"};
}

}  // namespace

std::optional<Issuer> issuer_of(const document::Document& document) {
    const auto& job = document.job;
    if (!job.laboratory) return std::nullopt;
    Issuer issuer{.name = job.laboratory->name,
                  .lines = {},
                  .traceability = certificates_words(document),
                  .report = "Calibration report" + (job.number.empty() ? "" : " " + job.number),
                  .edition = {}};
    std::string address;
    for (const std::string& line : job.laboratory->address) address += (address.empty() ? "" : ", ") + line;
    if (!job.laboratory->contact.empty()) address += (address.empty() ? "" : ", ") + job.laboratory->contact;
    for (const std::string& line : {address, job.laboratory->accreditation})
        if (!line.empty()) issuer.lines.push_back(line);
    const std::string date = job.issued.empty() ? "" : date_part(job.issued);
    if (job.revision) issuer.edition.push_back("Revision " + std::to_string(*job.revision) + (date.empty() ? "" : " of " + date));
    else if (!date.empty()) issuer.edition.push_back("Issued " + date);
    if (job.replaces) issuer.edition.push_back("replaces " + edition_replaced(*job.replaces));
    return issuer;
}

std::vector<Text> issue_note(const document::Document& document, bool below_issuer) {
    const auto& job = document.job;
    Text note;
    if (!below_issuer && !job.issued.empty()) note.plain("Issued " + date_part(job.issued) + ".");
    const bool told = below_issuer && job.replaces && job.replaces->reason.empty() && job.replaces->issued.empty();
    if (job.replaces && !told) {
        note.plain(note.empty() ? "Replaces " : " Replaces ").plain(edition_replaced(*job.replaces));
        if (!job.replaces->issued.empty()) note.plain(" of " + date_part(job.replaces->issued));
        if (!job.replaces->reason.empty()) note.plain("; " + job.replaces->reason);
        note.plain(".");
    }
    return note.empty() ? std::vector<Text>{} : std::vector<Text>{note};
}

}  // namespace wayfolio::report
