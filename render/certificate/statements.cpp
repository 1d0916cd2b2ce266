#include "certificate/drafting.hpp"
#include "report/words/names.hpp"
#include "report/model/text.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::certificate {
namespace {

void put_statement(Drafting& drafting, const std::string& name, const std::vector<Phrase>& declaration) {
    if (std::ranges::none_of(declaration, [](const Phrase& line) { return is_stated(line.text); })) return;
    const auto statement = drafting.xml.open("dcc:statement");
    put_name(drafting.xml, ours(name));
    put_lines(drafting.xml, "dcc:declaration", declaration);
}

std::vector<Phrase> all_given(const std::vector<std::string>& lines) {
    std::vector<Phrase> all;
    for (const std::string& line : lines) all.push_back(given(line));
    return all;
}

void put_draft(Drafting& drafting) {
    std::vector<Phrase> lines{
        ours("Draft of a digital calibration certificate. It carries no signature and no seal and is not a certificate."),
        ours("The laboratory checks it, adds what is missing, and signs it with its own means.")};
    if (drafting.document.job.status == document::Status::Draft) lines.push_back(ours("The results themselves are marked as a draft."));
    lines.push_back(given(drafting.document.job.data_notice));
    put_statement(drafting, "Draft", lines);
}

/// Only where something was decided: a rule without a limit says nothing.
void put_rule(Drafting& drafting) {
    if (drafting.evaluation.decisions.empty()) return;
    const auto& first = drafting.evaluation.decisions.front();
    put_statement(drafting, "Decision rule",
                  {ours(report::capitalised(report::rule_words(first.rule)) + (first.rule_stated ? "." : ", as the document names none.")),
                   ours(report::marked(report::rule_explained(first.rule)).words())});
}

void put_uncertainty(Drafting& drafting) {
    if (drafting.evaluation.uncertainty.empty()) return;
    put_statement(drafting, "Uncertainty of measurement",
                  {ours("Expanded uncertainties are standard uncertainties times the coverage factor that stands with each (GUM, JCGM "
                        "100:2008, 6.2)."),
                   ours("Where the result document states an expanded uncertainty with its factor alone, the probability of coverage is "
                        "taken as 0.95.")});
}

/// One line for each instrument whose certificate the document names (ISO/IEC 17025 7.8.4.1 c).
void put_traceability(Drafting& drafting) {
    std::vector<Phrase> lines;
    for (const auto& instrument : drafting.document.instruments) {
        if (!is_stated(instrument.certificate)) continue;
        std::string line = "Instrument " + instrument.id + ": certificate " + instrument.certificate;
        if (is_stated(instrument.certified_by)) line += ", issued by " + instrument.certified_by;
        if (is_stated(instrument.calibrated)) line += ", calibrated " + instrument.calibrated;
        if (is_stated(instrument.traceable_to)) line += ", traceable to " + instrument.traceable_to;
        lines.push_back(ours(std::move(line)));
    }
    put_statement(drafting, "Metrological traceability", lines);
}

void put_place(Drafting& drafting) {
    const std::string& place = drafting.document.job.place;
    if (!is_stated(place)) return;
    const auto statement = drafting.xml.open("dcc:statement");
    put_name(drafting.xml, ours("Place of the measurement"));
    const auto location = drafting.xml.open("dcc:location");
    put_lines(drafting.xml, "dcc:further", {given(place)});
}

}  // namespace

void put_statements(Drafting& drafting) {
    const document::Job& job = drafting.document.job;
    const auto list = drafting.xml.open("dcc:statements");
    put_draft(drafting);
    put_statement(drafting, "Title", {given(job.title)});
    put_statement(drafting, "Method", {given(job.method)});
    put_rule(drafting);
    put_uncertainty(drafting);
    put_traceability(drafting);
    std::vector<Phrase> defaults;
    for (const std::string& one : drafting.evaluation.defaults_used) defaults.push_back(ours(one));
    put_statement(drafting, "Defaults that were used", defaults);
    put_statement(drafting, "Agreed in place of the conditions of the standard", all_given(drafting.document.evaluation.agreed));
    put_place(drafting);
    if (job.laboratory) put_statement(drafting, "Accreditation", {given(job.laboratory->accreditation)});
    if (job.replaces) put_statement(drafting, "Reason why the earlier report is replaced", {given(job.replaces->reason)});
    put_statement(drafting, "Remarks", all_given(job.remarks));
    put_statement(drafting, "Scope",
                  {ours("The results relate to the item and the time of the measurement (ISO/IEC 17025:2017, 7.8.2.1 l).")});
}

}  // namespace wayfolio::certificate
