#include "evaluate/written/readings_table.hpp"

#include "units/number_text.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

using Row = std::vector<std::string>;

/// A text cell. A leading sign or "=" gets an apostrophe: spreadsheets would run it as a formula.
std::string text_cell(const std::string& text) {
    const std::string safe = !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos ? "'" + text : text;
    if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
    std::string quoted = "\"";
    for (const char character : safe) quoted += character == '"' ? std::string("\"\"") : std::string(1, character);
    return quoted + "\"";
}

std::string number_cell(const std::optional<Deviation>& value, const DeviationUnit& unit) {
    return value ? units::shortest(value->in(unit)) : std::string();
}

std::string line(const Row& cells) {
    std::string text;
    for (const std::string& cell : cells) text += (&cell == cells.data() ? "" : ",") + cell;
    return text + "\r\n";
}

/// Unit of a parameter: the series', but a slope among lengths is in µm/m.
DeviationUnit column_unit(const Parameter& parameter, const SeriesEvaluation& evaluation) {
    const Deviation* value = value_of(parameter.value);
    const bool other = value != nullptr && value->dimension() != evaluation.unit.dimension;
    if (other || parameter.name == "slope") return units::micrometre_per_metre;
    return evaluation.unit;
}

std::vector<const document::Run*> runs_of(const document::Series& series, Approach approach) {
    std::vector<const document::Run*> runs;
    for (const document::Run& run : series.runs)
        if (run.approach == approach) runs.push_back(&run);
    return runs;
}

std::string exclusions_at(const std::vector<const document::Run*>& runs, std::size_t target, const DeviationUnit& unit) {
    std::string text;
    for (std::size_t place = 0; place < runs.size(); ++place) {
        const document::Exclusion* exclusion = runs[place]->exclusion(target);
        if (exclusion == nullptr) continue;
        const std::string value = target < runs[place]->deviations.size() ? number_cell(runs[place]->deviations[target], unit) : "";
        text += fmt::format("{}reading {}{}: {}", text.empty() ? "" : "; ", place + 1, value.empty() ? "" : " (" + value + ")",
                            exclusion->reason);
    }
    return text;
}

Row target_head(std::size_t readings) {
    Row head{"series", "error", "state", "target", "position", "position_unit", "approach", "unit", "n", "mean", "s", "R",
             "mean_both", "reversal", "R_both", "reading_unit"};
    for (std::size_t reading = 1; reading <= readings; ++reading) head.push_back(fmt::format("reading_{}", reading));
    head.emplace_back("excluded");
    return head;
}

Row target_row(const document::Series& series, const SeriesEvaluation& evaluation, std::size_t place, Approach approach,
               std::size_t readings) {
    const TargetEvaluation& at = evaluation.targets[place];
    const OneWay& one_way = at.one_way[approach];
    const DeviationUnit& unit = evaluation.unit;
    Row row{text_cell(series.id), series.error.text(), text_cell(series.state), fmt::format("{}", place + 1), units::shortest(at.written),
            std::string(evaluation.position_unit.spelling), std::string(word(approach)), std::string(unit.spelling),
            fmt::format("{}", one_way.n), number_cell(one_way.mean, unit), number_cell(one_way.s, unit), number_cell(one_way.R, unit),
            number_cell(at.mean, unit), number_cell(at.reversal, unit), number_cell(at.R, unit),
            std::string(series.unit.spelling)};
    const auto runs = runs_of(series, approach);
    for (std::size_t reading = 0; reading < readings; ++reading)
        row.push_back(reading < runs.size() ? number_cell(runs[reading]->used(at.index), series.unit) : std::string());
    row.push_back(text_cell(exclusions_at(runs, at.index, series.unit)));
    return row;
}

/// "max positive 1250; min negative 6000": side, approach and position of each target that sets the parameter.
std::string set_by_text(const Parameter& parameter, const SeriesEvaluation& evaluation) {
    std::string text;
    for (const SetBy& by : parameter.set_by) {
        if (!text.empty()) text += "; ";
        if (by.side) text += *by.side == Side::Max ? "max " : "min ";
        if (by.approach) text += std::string(word(*by.approach)) + " ";
        text += units::shortest(evaluation.targets[by.index].written);
    }
    return text;
}

Row parameter_row(const Parameter& parameter, const SeriesEvaluation& evaluation) {
    const auto* missing = std::get_if<NotEvaluated>(&parameter.value);
    const Deviation* value = value_of(parameter.value);
    const DeviationUnit unit = column_unit(parameter, evaluation);
    return {parameter.name,
            value == nullptr ? std::string() : number_cell(*value, unit),
            std::string(unit.spelling),
            text_cell(set_by_text(parameter, evaluation)),
            number_cell(parameter.stated, unit),
            missing == nullptr ? std::string() : text_cell(missing->reason)};
}

}  // namespace

std::string readings_table(const document::Series& series, const SeriesEvaluation& evaluation) {
    const std::size_t readings = std::max(runs_of(series, Approach::Positive).size(), runs_of(series, Approach::Negative).size());
    std::string text = line(target_head(readings));
    for (std::size_t place = 0; place < evaluation.targets.size(); ++place)
        for (const Approach approach : document::both_approaches)
            text += line(target_row(series, evaluation, place, approach, readings));
    text += "\r\n" + line({"parameter", "value", "unit", "set_by", "stated", "not_evaluated"});
    for (const Parameter& parameter : evaluation.parameters) text += line(parameter_row(parameter, evaluation));
    return text;
}

}  // namespace wayfolio::evaluate
