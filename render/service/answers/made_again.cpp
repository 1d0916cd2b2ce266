#include "service/answers/made_again.hpp"

#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"

#include <optional>

namespace wayfolio::service {

Answer redrawn(const archive::Making& making, const Call& call, const Workshop& workshop) {
    std::optional<layouts::Layout> other;
    if (!call.option("layout").empty() || call.files.parts.contains("layout")) other = layout_in(call);
    const archive::Remade remade = archive::remake(making, std::move(other), call.option("paper"));
    return tagged(call.request, {200, "application/pdf",
                                 archive::draw_pdf({remade.document, remade.evaluation, remade.layout, workshop.shaper}, making), ""});
}

compare::Beside beside_in(const Call& call) {
    return call.option("beside") == "same" ? compare::Beside::Same : compare::Beside::LeftAndFound;
}

Answer compared(const compare::Side& was, const compare::Side& now, const Call& call) {
    const compare::Comparison found = compare::compare(was, now, beside_in(call));
    return tagged(call.request, {200, "application/json", compare::comparison_json(found, compare::causes(was, now, found)), ""});
}

}  // namespace wayfolio::service
