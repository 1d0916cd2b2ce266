#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/made_again.hpp"
#include "service/answers/problem.hpp"
#include "service/records/shelf.hpp"

#include "catalogue/history_figure.hpp"
#include "produce/comparison.hpp"

#include <fmt/format.h>

namespace wayfolio::service {
namespace {

catalogue::History history_asked(const Call& call, const Workshop& workshop) {
    catalogue::Query query;
    query.serial = call.option("serial");
    query.axis = call.option("axis");
    if (query.serial.empty()) throw Refused(problems::unknown_option, "the history of a machine without a serial number is nobody's");
    const OpenShelf shelf = open_shelf(workshop);
    const auto visits = catalogue::find_visits(shelf.database, query);
    if (visits.empty()) throw Refused(problems::nothing_there, "no sound record is of that machine and axis");
    catalogue::History history = catalogue::history_of(shelf.database, visits, query.axis, call.option("parameter"));
    if (history.lines.empty()) throw Refused(problems::nothing_there, "the records have no evaluated parameter of that name with a date");
    return history;
}

}  // namespace

Answer record_comparison(const Call& call, const Workshop& workshop) {
    const archive::Remade was = archive::remake(making_of(call.option("old"), workshop)),
                          now = archive::remake(making_of(call.option("new"), workshop));
    if (call.option("format") == "pdf") {
        const layouts::Layout layout = layouts::read_layout("report", "");
        return tagged(call.request, {200, "application/pdf",
                                     produce::comparison_pdf({.was = was.document,
                                                              .now = now.document,
                                                              .evaluation_was = was.evaluation,
                                                              .evaluation_now = now.evaluation,
                                                              .layout = layout,
                                                              .shaper = workshop.shaper,
                                                              .beside = beside_in(call)}),
                                     ""});
    }
    return compared({"old", was.document, was.evaluation}, {"new", now.document, now.evaluation}, call);
}

Answer history(const Call& call, const Workshop& workshop) {
    const catalogue::History history = history_asked(call, workshop);
    const std::string& format = call.option("format");
    if (format == "json") return tagged(call.request, {200, "application/json", catalogue::history_json(history), ""});
    if (catalogue::drawn_lines(history).empty()) throw Refused(problems::nothing_there, "no record has a value to draw");
    const layouts::Layout layout = layouts::read_layout("figures", "");
    const bool picture = format == "svg";
    return tagged(call.request, {200, picture ? "image/svg+xml" : "application/pdf",
                                 catalogue::history_bytes({history, layout, workshop.shaper},
                                                          picture ? produce::FigureFormat::Svg : produce::FigureFormat::Pdf),
                                 ""});
}

}  // namespace wayfolio::service
