#include "certificate/quantity.hpp"
#include "evaluate/written/json_text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using evaluate::Approach;
using evaluate::SeriesEvaluation;
using evaluate::TargetEvaluation;

/// One value at each target, where there is one.
struct TargetList {
    std::string name, label;
    std::string_view unit;
    std::vector<std::optional<double>> values;
};

/// Which targets have a value. The lists of D-SI know no gap, so only columns with the same targets share a list.
std::vector<bool> held(const TargetList& column) {
    std::vector<bool> holds;
    for (const auto& value : column.values) holds.push_back(value.has_value());
    return holds;
}

template <class Value>
TargetList deviations(const SeriesEvaluation& series, std::string name, std::string label, Value value_at) {
    TargetList column{std::move(name), std::move(label), {}, {}};
    for (const TargetEvaluation& target : series.targets) {
        const std::optional<units::Deviation>& value = value_at(target);
        std::optional<double> number;
        if (value) {
            const SiUnit unit = si_unit(evaluate::written_unit(*value, series.unit));
            number = value->in(unit.unit);
            column.unit = unit.spelling;
        }
        column.values.push_back(number);
    }
    return column;
}

TargetList counts(const SeriesEvaluation& series, std::string name, std::string label, Approach approach) {
    TargetList column{std::move(name), std::move(label), si::one, {}};
    for (const TargetEvaluation& target : series.targets) column.values.emplace_back(static_cast<double>(target.one_way[approach].n));
    return column;
}

std::vector<TargetList> columns_of(const SeriesEvaluation& series) {
    const auto mean = [](std::optional<Approach> approach) {
        return [approach](const TargetEvaluation& target) -> auto& { return target.mean_of(approach); };
    };
    const auto s = [](Approach approach) {
        return [approach](const TargetEvaluation& target) -> auto& { return target.one_way[approach].s; };
    };
    const auto reversal = [](const TargetEvaluation& target) -> auto& { return target.reversal; };
    std::vector<TargetList> columns{deviations(series, "Mean, positive approach", "mean_positive", mean(Approach::Positive)),
                                deviations(series, "Mean, negative approach", "mean_negative", mean(Approach::Negative)),
                                deviations(series, "Mean bi-directional deviation", "mean", mean(std::nullopt)),
                                deviations(series, "Standard deviation, positive approach", "s_positive", s(Approach::Positive)),
                                deviations(series, "Standard deviation, negative approach", "s_negative", s(Approach::Negative)),
                                deviations(series, "Reversal", "reversal", reversal)};
    if (series.source == evaluate::Source::Runs) {
        columns.push_back(counts(series, "Number of readings, positive approach", "n_positive", Approach::Positive));
        columns.push_back(counts(series, "Number of readings, negative approach", "n_negative", Approach::Negative));
    }
    std::erase_if(columns, [](const TargetList& column) {
        return std::ranges::none_of(column.values, [](const auto& value) { return value.has_value(); });
    });
    return columns;
}

std::vector<double> values_at(const std::vector<std::optional<double>>& values, const std::vector<bool>& targets) {
    std::vector<double> kept;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (targets[i]) kept.push_back(values[i].value());
    return kept;
}

TargetList positions_of(const SeriesEvaluation& series) {
    const SiPositionUnit unit = si_unit(series.position_unit);
    TargetList column{"Position", "position", unit.spelling, {}};
    for (const TargetEvaluation& target : series.targets)
        column.values.emplace_back(unit.unit == series.position_unit ? target.written : target.position.in(unit.unit));
    return column;
}

}  // namespace

void put_target_lists(Drafting& drafting, const SeriesEvaluation& series) {
    std::vector<TargetList> columns = columns_of(series);
    if (columns.empty()) return;
    const TargetList positions = positions_of(series);
    const auto result = drafting.xml.open("dcc:result");
    put_name(drafting.xml, ours("Values at the targets"));
    put_lines(drafting.xml, "dcc:description",
              {ours("Deviations are actual minus target. A value that the readings do not give stands in no list.")});
    const auto data = drafting.xml.open("dcc:data");
    while (!columns.empty()) {
        const std::vector<bool> targets = held(columns.front());
        const auto list = drafting.xml.open("dcc:list");
        put_name(drafting.xml, ours(fmt::format("At {} of {} targets", std::ranges::count(targets, true), targets.size())));
        put_quantity(drafting, QuantityList{positions.name, positions.label, values_at(positions.values, targets), positions.unit});
        for (const TargetList& column : columns)
            if (held(column) == targets)
                put_quantity(drafting, QuantityList{column.name, column.label, values_at(column.values, targets), column.unit});
        std::erase_if(columns, [&](const TargetList& column) { return held(column) == targets; });
    }
}

}  // namespace wayfolio::certificate
