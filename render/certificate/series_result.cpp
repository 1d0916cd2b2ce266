#include "certificate/drafting.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <cmath>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using evaluate::SeriesEvaluation;
using document::Series;

/// Readings that took no part, so that nobody counts them.
std::vector<Phrase> readings_left_out(const SeriesEvaluation& series) {
    std::vector<Phrase> lines;
    for (const auto& one : series.excluded) {
        lines.push_back(ours(fmt::format("Reading of run {} at target {} excluded:", one.run + 1, one.target + 1)));
        lines.push_back(given(one.reason));
    }
    for (const auto& one : series.missing)
        lines.push_back(ours(fmt::format("Reading of run {} at target {} missing", one.run + 1, one.target + 1)));
    return lines;
}

std::vector<Phrase> description_of(const Series& series, const SeriesEvaluation& evaluated) {
    std::vector<Phrase> lines{ours("Series " + series.id + " of the result document")};
    if (const std::string when = report::measured_when(series); is_stated(when)) lines.push_back(ours("Measured " + when));
    if (evaluated.source == evaluate::Source::Stated)
        lines.push_back(ours("Values as the analyst stated them; not recomputed from readings"));
    for (Phrase& line : readings_left_out(evaluated)) lines.push_back(std::move(line));
    for (const std::string& remark : series.remarks) lines.push_back(given(remark));
    return lines;
}

/// What is known to be wrong with the lengths of a series, and what became of it: a value with a bias that U does not cover in full is
/// no complete result without that (GUM F.2.4.5 [from memory]).
std::vector<Phrase> bias_phrases(const SeriesEvaluation& evaluated, const evaluate::Evaluation& evaluation) {
    using Treatment = evaluate::KnownBias::Treatment;
    std::vector<Phrase> phrases;
    for (const evaluate::KnownBias& bias : evaluation.known_biases) {
        if (bias.series != evaluated.id) continue;
        const std::string of_travel = std::string(document::influence_name(bias.influence)) + ", " + bias.text() + " over the travel";
        switch (bias.treatment) {
            case Treatment::Corrected: phrases.push_back(ours("Corrected for, as asked: " + of_travel)); break;
            case Treatment::Added: phrases.push_back(ours("Not corrected: " + of_travel + "; U is enlarged by it")); break;
            case Treatment::Open: phrases.push_back(ours("Not corrected: " + of_travel + "; no U counts it")); break;
            case Treatment::InBudget:
            case Treatment::Small: break;
        }
    }
    const auto* why = evaluated.air_correction ? std::get_if<evaluate::NotEvaluated>(&*evaluated.air_correction) : nullptr;
    if (why) phrases.push_back(ours("Not corrected for the air, as was asked for: " + why->reason));
    return phrases;
}

/// The quantity that a decision judges.
std::string judged_id(const SeriesEvaluation& series, const evaluate::Decision& decision, const std::string& id) {
    if (decision.parameter != "local") return quantity_id(id, decision.parameter);
    for (std::size_t place = 0; place < series.local.size(); ++place) {
        const double window = series.local[place].window.in(units::millimetre);
        const bool same_window = decision.length_mm && std::abs(window - *decision.length_mm) <= 1e-9 * window;
        if (same_window && decision.reference_line == series.local[place].reference) return local_id(id, place);
    }
    return {};
}

}  // namespace

void put_methods(Drafting& drafting, const std::string& norm, const std::vector<Phrase>& remarks) {
    const auto list = drafting.xml.open("dcc:usedMethods");
    const auto method = drafting.xml.open("dcc:usedMethod");
    put_name(drafting.xml, ours("Evaluation by " + norm));
    put_lines(drafting.xml, "dcc:description", remarks);
    drafting.xml.put("dcc:norm", norm);
}

void put_series_result(Drafting& drafting, std::size_t place) {
    const Series& series = drafting.document.series[place];
    const SeriesEvaluation& evaluated = drafting.evaluation.series.at(place);
    const std::string id = "result-" + std::to_string(place + 1);
    const auto result =
        drafting.xml.open("dcc:measurementResult", {{"id", id}, {"refId", axis_item_id(drafting.document, series.error.axis).value()}});
    put_name(drafting.xml, ours(report::quantity_title(drafting.document, series.error) + report::state_suffix(series.state)));
    put_lines(drafting.xml, "dcc:description", description_of(series, evaluated));
    std::vector<Phrase> remarks{ours("The formulas were not compared in full with the printed text of the standard")};
    for (Phrase& phrase : bias_phrases(evaluated, drafting.evaluation)) remarks.push_back(std::move(phrase));
    put_methods(drafting, evaluated.standard, remarks);
    put_equipment(drafting, {&series}, nullptr);
    put_conditions(drafting, series);
    {
        const auto results = drafting.xml.open("dcc:results");
        put_target_lists(drafting, evaluated);
        put_parameters(drafting, evaluated, id);
    }
    std::vector<std::pair<const evaluate::Decision*, std::string>> decisions;
    for (const auto& decision : drafting.evaluation.decisions)
        if (decision.series == series.id && !decision.axes) decisions.emplace_back(&decision, judged_id(evaluated, decision, id));
    put_conformity(drafting, decisions);
}

}  // namespace wayfolio::certificate
