#include "gather/shapes/head.hpp"

#include "gather/exports/numbers.hpp"
#include "input/json/json.hpp"
#include "input/json/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::gather {
namespace {

const Column* column_of(const std::optional<Where>& where) { return where ? std::get_if<Column>(&*where) : nullptr; }

/// All columns that a mapping of an export names, in its order.
std::vector<const Column*> columns_of(const ExportMapping& entry) {
    std::vector<const Column*> all;
    const auto add = [&](const Column* column) {
        if (column != nullptr) all.push_back(column);
    };
    if (entry.position) add(entry.position->column ? &*entry.position->column : nullptr);
    if (entry.approach) add(column_of(entry.approach->where));
    if (entry.run) add(column_of(entry.run->where));
    if (entry.time)
        for (const Where& part : entry.time->parts) add(std::get_if<Column>(&part));
    if (entry.excluded) add(&entry.excluded->column);
    for (const ValueColumns& values : entry.values)
        for (const Column& column : values.columns) add(&column);
    for (const SurroundingsColumn& column : entry.surroundings) add(&column.column);
    if (entry.trace) add(&entry.trace->position), add(&entry.trace->value);
    return all;
}

bool may_stand_in_number(char letter) { return std::string_view("0123456789.,+-eE'").find(letter) != std::string_view::npos; }

}  // namespace

std::optional<std::string> number_in_head(std::string_view pattern, std::string_view head, const Dialect& dialect) {
    const std::size_t special = pattern.find_first_of("*#");
    if (special == std::string_view::npos) return pattern == head ? std::optional(std::string()) : std::nullopt;
    if (!head.starts_with(pattern.substr(0, special))) return std::nullopt;
    const std::string_view rest = pattern.substr(special + 1), text = head.substr(special);
    if (pattern[special] == '*') {
        for (std::size_t at = 0; at <= text.size(); ++at)
            if (auto found = number_in_head(rest, text.substr(at), dialect)) return found;
        return std::nullopt;
    }
    std::size_t longest = 0;
    while (longest < text.size() && may_stand_in_number(text[longest])) ++longest;
    for (std::size_t length = longest; length > 0; --length) {
        if (!number_in(text.substr(0, length), dialect)) continue;
        if (number_in_head(rest, text.substr(length), dialect)) return std::string(text.substr(0, length));
    }
    return std::nullopt;
}

HeadFinder::HeadFinder(const ExportMapping& entry, const std::vector<SeriesMapping>& series) : entry_(entry), series_(series) {
    for (const Column* column : columns_of(entry))
        if (!column->head.empty() && std::ranges::find(names_, column->head) == names_.end()) names_.push_back(column->head);
    has_pattern_ = std::ranges::any_of(entry.values, [](const ValueColumns& values) { return !values.pattern.empty(); });
}

std::optional<std::size_t> HeadFinder::place_of(const Column& column, const Heads& heads) const {
    if (column.head.empty()) return column.number - 1;
    const auto found = heads.find(column.head);
    return found == heads.end() ? std::nullopt : std::optional(found->second.front());
}

std::vector<ValuePlace> HeadFinder::value_places(const ValueColumns& values, const Row* row, const Heads& heads) const {
    std::vector<ValuePlace> places;
    const bool runs = values.are == ColumnsAre::Runs;
    if (!values.pattern.empty() && row != nullptr) {
        for (std::size_t cell = 0; cell < row->cells.size(); ++cell) {
            auto number = number_in_head(values.pattern, row->cells[cell].trimmed(), entry_.dialect);
            if (!number) continue;
            const std::string name = number->empty() ? std::to_string(places.size() + 1) : *number;
            places.push_back({cell, runs ? name : std::string(), std::nullopt});
        }
        return places;
    }
    for (std::size_t i = 0; i < values.columns.size(); ++i)
        if (const auto cell = place_of(values.columns[i], heads))
            places.push_back({*cell, runs && values.columns.size() > 1 ? std::to_string(i + 1) : std::string(), std::nullopt});
    return places;
}

ColumnPlan HeadFinder::plan_with(const Row* row, const Heads& heads) const {
    ColumnPlan plan;
    const auto place = [&](const Column* column) { return column == nullptr ? std::nullopt : place_of(*column, heads); };
    if (entry_.position && entry_.position->column) plan.position = place(&*entry_.position->column);
    if (entry_.approach) plan.approach = place(column_of(entry_.approach->where));
    if (entry_.run) plan.run = place(column_of(entry_.run->where));
    if (entry_.excluded) plan.mark = place(&entry_.excluded->column);
    if (entry_.time)
        for (const Where& part : entry_.time->parts)
            if (const auto cell = place(std::get_if<Column>(&part))) plan.time.push_back(*cell);
    for (const SurroundingsColumn& column : entry_.surroundings) plan.surroundings.push_back(place(&column.column).value_or(0));
    if (entry_.trace) plan.trace_position = place(&entry_.trace->position), plan.trace_value = place(&entry_.trace->value);
    for (const ValueColumns& values : entry_.values) {
        plan.values.push_back(value_places(values, row, heads));
        if (values.are != ColumnsAre::Targets) continue;
        const std::vector<Decimal>& targets = series_[values.series].targets;
        for (std::size_t i = 0; i < plan.values.back().size() && targets.size() == plan.values.back().size(); ++i)
            plan.values.back()[i].position = targets[i];
    }
    return plan;
}

ColumnPlan HeadFinder::plan_by_number() const { return plan_with(nullptr, {}); }

std::optional<ColumnPlan> HeadFinder::plan_of(const Row& row, ExportFaults& faults) {
    Heads heads;
    for (std::size_t cell = 0; cell < row.cells.size(); ++cell) heads[row.cells[cell].trimmed()].push_back(cell);
    if (!std::ranges::all_of(names_, [&](std::string_view name) { return heads.contains(name); })) {
        remember_nearest(row, heads);
        return std::nullopt;
    }
    ColumnPlan plan = plan_with(&row, heads);
    for (std::size_t i = 0; i < plan.values.size(); ++i)
        if (plan.values[i].empty() && !entry_.values[i].pattern.empty()) {
            nearest_found_ = names_.size() + 1;
            nearest_ = {row.line, row.cells.front().column};
            nearest_lacks_ = input::quoted(entry_.values[i].pattern);
            nearest_hint_ = "# stands for a number, * for any text";
            return std::nullopt;
        }
    for (const std::string_view name : names_) {
        const std::vector<std::size_t>& places = heads.at(name);
        if (places.size() > 1)
            faults.add(row.cells[places[1]], fmt::format("a second column \"{}\"", name), "each head that the mapping names once",
                       fmt::format("give the number of the column that is meant: {} or {}", places[0] + 1, places[1] + 1));
    }
    plan.width = row.cells.size();
    plan.anchor = names_.empty() ? plan.values.front().front().cell : heads.at(names_.front()).front();
    plan.anchor_head = row.cells[plan.anchor].trimmed();
    for (std::size_t i = 0; i < plan.values.size(); ++i) {
        if (entry_.values[i].are != ColumnsAre::Targets) continue;
        for (ValuePlace& place : plan.values[i]) {
            if (place.position) continue;
            const Cell& cell = row.cells[place.cell];
            const auto text = entry_.values[i].pattern.empty() ? number_in_head("#*", cell.trimmed(), entry_.dialect)
                                                               : number_in_head(entry_.values[i].pattern, cell.trimmed(), entry_.dialect);
            place.position = text ? number_in(*text, entry_.dialect) : std::nullopt;
            if (!place.position)
                faults.add(cell, shown(cell), "a head that begins with the target position",
                           R"(or name the positions under "targets" of the series)");
        }
    }
    check_units(row, plan, faults);
    return plan;
}

/// A head that states a unit must not state another one than the mapping.
void HeadFinder::check_units(const Row& row, const ColumnPlan& plan, ExportFaults& faults) const {
    const auto check = [&](std::size_t cell, std::string_view unit) {
        if (cell >= row.cells.size()) return;
        const auto stated = unit_in_head(row.cells[cell].trimmed());
        if (stated && *stated != unit)
            faults.add(row.cells[cell], fmt::format("the unit {} in the head {}", *stated, shown(row.cells[cell])),
                       fmt::format("{}, as the mapping says", unit), "which of the two is right?");
    };
    for (std::size_t i = 0; i < plan.values.size(); ++i) {
        const SeriesMapping& series = series_[entry_.values[i].series];
        const bool positions = entry_.values[i].reads == Reads::Position || entry_.values[i].are == ColumnsAre::Targets;
        if (plan.position) check(*plan.position, series.position_unit.spelling);
        for (const ValuePlace& place : plan.values[i]) check(place.cell, positions ? series.position_unit.spelling : series.unit.spelling);
    }
    for (std::size_t i = 0; i < plan.surroundings.size(); ++i) check(plan.surroundings[i], entry_.surroundings[i].unit);
    if (!entry_.trace) return;
    check(plan.trace_position.value_or(0), series_[entry_.trace->series].position_unit.spelling);
    check(plan.trace_value.value_or(0), series_[entry_.trace->series].unit.spelling);
}

void HeadFinder::remember_nearest(const Row& row, const Heads& heads) {
    const auto found = static_cast<std::size_t>(std::ranges::count_if(names_, [&](std::string_view name) { return heads.contains(name); }));
    if (found == 0 || found <= nearest_found_) return;
    nearest_found_ = found;
    nearest_ = {row.line, row.cells.empty() ? 1 : row.cells.front().column};
    nearest_lacks_.clear();
    nearest_hint_.clear();
    std::vector<std::string_view> there;
    for (const Cell& cell : row.cells)
        if (!cell.empty()) there.push_back(cell.trimmed());
    for (const std::string_view name : names_) {
        if (heads.contains(name)) continue;
        nearest_lacks_ += (nearest_lacks_.empty() ? "" : ", ") + input::quoted(name);
        if (nearest_hint_.empty()) nearest_hint_ = input::nearest_hint(name, there);
    }
}

void HeadFinder::note_no_head(ExportFaults& faults) const {
    std::string wanted;
    for (const std::string_view name : names_) wanted += (wanted.empty() ? "" : ", ") + input::quoted(name);
    for (const ValueColumns& values : entry_.values)
        if (!values.pattern.empty()) wanted += (wanted.empty() ? "" : ", ") + input::quoted(values.pattern);
    const std::string expected = "a row with the heads " + wanted;
    if (nearest_found_ > 0)
        faults.add(nearest_, "a head without " + nearest_lacks_, expected, nearest_hint_);
    else
        faults.add(Spot{1, 1}, "no such head", expected, "is the delimiter the right one?");
}

}  // namespace wayfolio::gather
