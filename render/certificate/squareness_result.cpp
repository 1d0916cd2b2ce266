#include "certificate/quantity.hpp"

#include <algorithm>

namespace wayfolio::certificate {
namespace {

using evaluate::SquarenessEvaluation;

const evaluate::ParameterUncertainty* squareness_uncertainty(const evaluate::Evaluation& evaluation,
                                                             const SquarenessEvaluation& squareness) {
    const auto found = std::ranges::find_if(evaluation.uncertainty, [&](const auto& one) {
        return one.parameter == "squareness" && one.series == squareness.series[0] && one.axes == squareness.axes;
    });
    return found == evaluation.uncertainty.end() ? nullptr : &*found;
}

const document::SquarenessRequest* request_of(const document::Document& document, const SquarenessEvaluation& squareness) {
    const auto found = std::ranges::find_if(
        document.squareness, [&](const auto& one) { return one.axes == squareness.axes && one.series == squareness.series; });
    return found == document.squareness.end() ? nullptr : &*found;
}

void put_values(Drafting& drafting, const SquarenessEvaluation& squareness, const std::string& id) {
    const auto results = drafting.xml.open("dcc:results");
    const auto result = drafting.xml.open("dcc:result");
    put_name(drafting.xml, ours("Squareness " + squareness.symbol));
    const auto data = drafting.xml.open("dcc:data");
    SiQuantity value{.name = "Squareness " + squareness.symbol,
                     .label = "squareness",
                     .id = quantity_id(id, "squareness"),
                     .unit = si::microradian,
                     .description = {ours("right-hand rotation of the second axis about the third")}};
    if (const auto* angle = evaluate::value_of(squareness.value)) {
        value.value = angle->in(units::microradian);
        value.expanded = expanded_of(squareness_uncertainty(drafting.evaluation, squareness), units::microradian);
    } else {
        value.reason = std::get<evaluate::NotEvaluated>(squareness.value).reason;
    }
    put_quantity(drafting, value);
    if (squareness.beyond_right_angle)
        put_quantity(drafting, {.name = "Angle between the positive directions less 90 degrees",
                                .label = "beyond_right_angle",
                                .value = squareness.beyond_right_angle->in(units::microradian),
                                .unit = si::microradian});
}

/// Both axes, as a list of references.
std::string item_ids(const document::Document& document, const SquarenessEvaluation& squareness) {
    std::string ids;
    for (const std::string& axis : squareness.axes)
        if (const auto id = axis_item_id(document, axis)) ids += (ids.empty() ? "" : " ") + *id;
    return ids;
}

}  // namespace

void put_squareness_result(Drafting& drafting, std::size_t place) {
    const SquarenessEvaluation& squareness = drafting.evaluation.squareness[place];
    const std::string id = "squareness-" + std::to_string(place + 1), items = item_ids(drafting.document, squareness);
    XmlWriter::Attributes attributes{{"id", id}};
    if (!items.empty()) attributes.emplace_back("refId", items);
    const auto result = drafting.xml.open("dcc:measurementResult", attributes);
    put_name(drafting.xml, ours("Squareness of " + squareness.axes[0] + " and " + squareness.axes[1]));
    put_lines(drafting.xml, "dcc:description",
              {ours("From series " + squareness.series[0] + " and " + squareness.series[1] + " of the result document")});
    put_methods(drafting, "ISO 230-1:2012", {ours(squareness.square_error ? "" : "The document states no error of a square; 0 was used")});
    std::vector<const document::Series*> series;
    for (const std::string& one : squareness.series)
        if (const auto* found = document::find_series(drafting.document, one)) series.push_back(found);
    put_equipment(drafting, series, request_of(drafting.document, squareness));
    put_values(drafting, squareness, id);
    std::vector<std::pair<const evaluate::Decision*, std::string>> decisions;
    for (const auto& decision : drafting.evaluation.decisions)
        if (decision.axes == squareness.axes && decision.series == squareness.series[0])
            decisions.emplace_back(&decision, quantity_id(id, "squareness"));
    put_conformity(drafting, decisions);
}

}  // namespace wayfolio::certificate
