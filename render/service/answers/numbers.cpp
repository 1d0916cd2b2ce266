#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/made_again.hpp"
#include "service/answers/problem.hpp"

#include "archive/verify/verify.hpp"
#include "certificate/certificate.hpp"
#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "evaluate/written/json_text.hpp"
#include "evaluate/written/readings_table.hpp"
#include "produce/logo_fault.hpp"
#include "produce/unset_text.hpp"

namespace wayfolio::service {

Answer check(const Call& call, const Workshop& workshop) {
    evaluate::Findings found{.file = "document", .faults = {}, .warnings = {}, .lacking = {}, .supports = {}};
    try {
        const document::Document document = document_in(call);
        found.faults = produce::unset_texts(document, workshop.shaper);
        for (input::Problem& fault : produce::logo_faults(document)) found.faults.push_back(std::move(fault));
        if (found.faults.empty()) found = evaluate::findings(document, evaluate::evaluate(document));
    } catch (const input::InputRejected& rejected) {  // here the faults are the answer
        found.faults = rejected.problems();
    }
    return tagged(call.request, {200, "application/json", evaluate::findings_json(found), ""});
}

Answer evaluation(const Call& call, const Workshop&) {
    const document::Document document = document_in(call);
    return tagged(call.request, {200, "application/json", evaluate::evaluation_json(document, evaluate::evaluate(document)), ""});
}

Answer table(const Call& call, const Workshop&) {
    const document::Document document = document_in(call);
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const evaluate::SeriesEvaluation& series = series_in(call, evaluation);
    return tagged(call.request,
                  {200, "text/csv; charset=utf-8", evaluate::readings_table(*document::find_series(document, series.id), series), ""});
}

Answer certificate(const Call& call, const Workshop&) {
    const document::Document document = document_in(call);
    return tagged(call.request, {200, "application/xml", certificate::certificate_draft(document, evaluate::evaluate(document)).xml, ""});
}

Answer verify(const Call& call, const Workshop& workshop) {
    const archive::Verification verdict =
        archive::verify_pdf(part_in(call, "pdf"), "report.pdf", {workshop.shaper, call.option("against")});
    return tagged(call.request, {200, "application/json", archive::verification_json(verdict), ""});
}

Answer comparison(const Call& call, const Workshop&) {
    const document::Document was = document_in(call, "old"), now = document_in(call, "new");
    const evaluate::Evaluation evaluation_was = evaluate::evaluate(was), evaluation_now = evaluate::evaluate(now);
    return compared({"old", was, evaluation_was}, {"new", now, evaluation_now}, call);
}

}  // namespace wayfolio::service
