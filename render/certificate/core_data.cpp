#include "certificate/drafting.hpp"
#include "input/iso_date.hpp"
#include "report/words/names.hpp"

namespace wayfolio::certificate {
namespace {

/// The number of a report with its revision. The first may say 0 or nothing: it is called alike, so that the one that replaces it finds its
/// name.
std::string report_identifier(const std::string& number, const std::optional<int>& revision) {
    if (!is_stated(number)) return {};
    return std::string(trimmed(number)) + (revision.value_or(0) > 0 ? " revision " + std::to_string(*revision) : "");
}

/// The first start or the last end of all runs, as written; empty where none has a time.
std::string time_of_runs(const document::Document& document, std::string document::Run::*which, bool latest) {
    std::string found;
    for (const document::Series& series : document.series)
        for (const document::Run& run : series.runs) {
            const auto time = input::iso_date(run.*which), best = input::iso_date(found);
            if (time && (!best || (latest ? input::is_before(*best, *time) : input::is_before(*time, *best)))) found = run.*which;
        }
    return found;
}

std::string_view place_word(document::PlaceKind kind) {
    using enum document::PlaceKind;
    switch (kind) {
        case Laboratory: return "laboratory";
        case Customer: return "customer";
        case LaboratoryBranch: return "laboratoryBranch";
        case CustomerBranch: return "customerBranch";
        case Other: break;
    }
    return "other";
}

void put_dates(Drafting& drafting) {
    const document::Job& job = drafting.document.job;
    const std::string begin =
        is_stated(job.measured_from) ? job.measured_from : time_of_runs(drafting.document, &document::Run::started, false);
    const std::string end = is_stated(job.measured_to) ? job.measured_to : time_of_runs(drafting.document, &document::Run::ended, true);
    drafting.put_or_lack("dcc:beginPerformanceDate", report::date_part(begin), "first day of the measurement", "/job/measured/from");
    drafting.put_or_lack("dcc:endPerformanceDate", report::date_part(end), "last day of the measurement", "/job/measured/to");
}

void put_replaced(Drafting& drafting) {
    const auto& replaces = drafting.document.job.replaces;
    if (!replaces) return;
    const std::string identifier = report_identifier(replaces->number, replaces->revision);
    if (identifier.empty()) return drafting.lacks("number of the report that this one replaces", "/job/replaces/number");
    const auto replaced = drafting.xml.open("dcc:reportAmendedSubstituted");
    drafting.xml.put("dcc:typeOfChange", "substituted");  // a whole new report (ISO/IEC 17025:2017, 7.8.8.3), never a supplement
    drafting.xml.put("dcc:replacedUniqueIdentifier", identifier);
}

}  // namespace

void put_core_data(Drafting& drafting) {
    const document::Job& job = drafting.document.job;
    XmlWriter& xml = drafting.xml;
    const auto core = xml.open("dcc:coreData");
    drafting.put_or_lack("dcc:countryCodeISO3166_1", job.laboratory ? job.laboratory->country : "", "country of the laboratory",
                         "/job/laboratory/country");
    xml.put("dcc:usedLangCodeISO639_1", "en");
    xml.put("dcc:mandatoryLangCodeISO639_1", "en");
    drafting.put_or_lack("dcc:uniqueIdentifier", report_identifier(job.number, job.revision), "number of the report", "/job/number");
    if (is_stated(job.order)) {
        const auto identifications = xml.open("dcc:identifications");
        put_identification(xml, Issuer::Customer, job.order, "Order");
    }
    put_dates(drafting);
    if (job.place_kind) xml.put("dcc:performanceLocation", place_word(*job.place_kind));
    else drafting.lacks("whose place the measurement was made at", "/job/place_kind");
    if (is_stated(job.issued)) xml.put("dcc:issueDate", report::date_part(job.issued));
    put_replaced(drafting);
}

}  // namespace wayfolio::certificate
