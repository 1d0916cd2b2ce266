#include "gather/exports/numbers.hpp"
#include "gather/shapes/export_reader.hpp"
#include "gather/shapes/times.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <cmath>

/// The cells of one row of ExportReader.
namespace wayfolio::gather {
namespace {

/// A part of a listed mark: "reading 2 (1.4): reason".
struct ListedMark {
    std::string_view run, value, reason;
};

/// Takes the first mark off the list; a reason goes on until another "reading N" begins.
std::optional<ListedMark> take_mark(std::string_view& list) {
    constexpr std::string_view word = "reading ", between = "; reading ";
    if (!list.starts_with(word)) return std::nullopt;
    ListedMark mark;
    std::string_view rest = list.substr(word.size());
    const std::size_t digits = std::min(rest.find_first_not_of("0123456789"), rest.size());
    mark.run = rest.substr(0, digits);
    rest.remove_prefix(digits);
    if (rest.starts_with(" (")) {
        const std::size_t close = rest.find("): ");
        if (close == std::string_view::npos) return std::nullopt;
        mark.value = rest.substr(2, close - 2);
        rest.remove_prefix(close + 1);
    }
    if (digits == 0 || !rest.starts_with(": ")) return std::nullopt;
    rest.remove_prefix(2);
    std::size_t end = rest.find(between);
    while (end != std::string_view::npos) {
        const std::size_t after = rest.find_first_not_of("0123456789", end + between.size());
        if (after != end + between.size() && after != std::string_view::npos && (rest[after] == ':' || rest[after] == ' ')) break;
        end = rest.find(between, end + 1);
    }
    mark.reason = rest.substr(0, end);
    list = end == std::string_view::npos ? std::string_view() : rest.substr(end + 2);
    return mark;
}

bool is_one_of(std::string_view text, const std::vector<std::string>& words) {
    return std::ranges::any_of(words, [text](const std::string& word) { return same_text(word, text); });
}

}  // namespace

bool ExportReader::is_missing(const Cell& cell) const {
    const std::string_view text = cell.trimmed();
    return text.empty() || is_one_of(text, entry_.dialect.missing);
}

/// The number in a cell; a fault and nothing where there is none.
std::optional<Decimal> ExportReader::number_at(const Cell& cell, std::size_t place) {
    std::optional<Decimal> number = cell.number ? std::optional(decimal_of(*cell.number)) : number_in(cell.trimmed(), entry_.dialect);
    if (!number) note_no_number(cell, place);
    return number;
}

void ExportReader::note_no_number(const Cell& cell, std::size_t place) {
    NoNumber none = why_no_number(cell.trimmed(), entry_.dialect);
    const std::string what = head_words(place);
    faults_.add(cell, shown(cell), fmt::format("{} in {}", none.expected, what), std::move(none.hint), what);
}

void ExportReader::read_facts(const Row& row, RowFacts& facts) {
    if (!plan_.time.empty()) read_time(row, facts);
    if (entry_.values.empty()) return;
    if (plan_.mark) read_mark(row, facts);
    if (plan_.position) read_position(row, facts);
    if (entry_.approach) {
        if (entry_.approach->always) facts.approach = entry_.approach->always;
        if (plan_.approach) read_approach(cell_at(row, *plan_.approach), facts.approach);
    }
    if (entry_.run) read_run(row, facts);
    if (!facts.approach && !motion_ && !approach_by_values_) facts.sound = false;
}

void ExportReader::read_position(const Row& row, RowFacts& facts) {
    const Cell& cell = cell_at(row, *plan_.position);
    facts.position = number_at(cell, *plan_.position);
    facts.sound = facts.sound && facts.position.has_value();
}

void ExportReader::read_approach(const Cell& cell, std::optional<Approach>& into) {
    const std::string_view word = cell.trimmed();
    into.reset();
    if (is_one_of(word, entry_.approach->positive))
        into = Approach::Positive;
    else if (is_one_of(word, entry_.approach->negative))
        into = Approach::Negative;
    else
        faults_.add(cell, shown(cell),
                    fmt::format("a word for the approach: {} or {}", fmt::join(entry_.approach->positive, ", "),
                                fmt::join(entry_.approach->negative, ", ")),
                    "list it under \"positive\" or \"negative\" in the mapping");
}

void ExportReader::read_run(const Row& row, RowFacts& facts) {
    switch (entry_.run->one) {
        case OneRun::File:
            facts.run = file_.name;
            return;
        case OneRun::Block:
            facts.run = run_text_ = fmt::format("{} block {}", file_.name, blocks_);
            return;
        case OneRun::Row:
            facts.run = run_text_ = fmt::format("{} row {}", file_.name, row.line);
            return;
        case OneRun::Repeat:
            if (facts.position) facts.run = run_text_ = std::to_string(++repeats_[{facts.approach, facts.position->value()}]);
            return;
        case OneRun::Named:
            break;
    }
    facts.run = block_facts_.run;
    if (plan_.run) {
        const Cell& cell = cell_at(row, *plan_.run);
        facts.run = cell.trimmed();
        if (facts.run.empty()) faults_.add(cell, "an empty cell", fmt::format("the name or number of a run in {}", head_words(*plan_.run)));
    }
    facts.sound = facts.sound && !facts.run.empty();
}

void ExportReader::read_time(const Row& row, RowFacts& facts) {
    std::string text;
    for (const std::size_t place : plan_.time) {
        const Cell& cell = cell_at(row, place);
        if (cell.number && file_.is_sheet) {
            facts.time = time_text_ = time_of_serial(*cell.number, *entry_.time);
            return;
        }
        text += (text.empty() ? "" : " ") + std::string(cell.trimmed());
    }
    facts.time = {};
    const bool needed = !entry_.surroundings.empty();
    if (text.find_first_not_of(' ') == std::string::npos && !needed) return;
    if (auto time = time_in(text, *entry_.time))
        facts.time = time_text_ = *std::move(time);
    else {
        const Cell& cell = cell_at(row, plan_.time.front());
        faults_.add(cell, "\"" + text + "\"", time_words(*entry_.time),
                    entry_.time->form.empty() ? "\"form\" in the mapping says how times are written" : "", "time");
    }
}

void ExportReader::read_mark(const Row& row, RowFacts& facts) {
    const Cell& cell = cell_at(row, *plan_.mark);
    if (cell.empty()) return;
    if (entry_.excluded->listed) {
        facts.listed = cell.trimmed();
        std::string_view list = facts.listed;
        while (!list.empty())
            if (!take_mark(list)) {
                faults_.add(cell, shown(cell), "marks as \"reading 2 (1.4): reason\", separated by \"; \"");
                facts.listed = {};
                return;
            }
        return;
    }
    if (entry_.excluded->reasons.empty()) {
        facts.excluded = cell.trimmed();
        return;
    }
    const auto& reasons = entry_.excluded->reasons;
    const auto found = std::ranges::find(reasons, cell.trimmed(), &std::pair<std::string, std::string>::first);
    if (found != reasons.end())
        facts.excluded = found->second;
    else
        faults_.add(cell, "the mark " + shown(cell), "a mark whose reason the mapping names", "add it under \"reasons\" of \"excluded\"",
                    "mark");
}

void ExportReader::read_surroundings(const Row& row, const RowFacts& facts) {
    SurroundingsSample sample{std::string(facts.time), {}};
    for (std::size_t i = 0; i < plan_.surroundings.size(); ++i) {
        const Cell& cell = cell_at(row, plan_.surroundings[i]);
        if (is_missing(cell)) continue;
        if (const auto number = number_at(cell, plan_.surroundings[i]))
            sample.values.emplace_back(&entry_.surroundings[i], in_document_unit(*number, entry_.surroundings[i].unit));
    }
    if (sample.values.empty() || sample.time.empty()) return;
    if (into_.surroundings.samples.size() == Surroundings::most_samples)
        return faults_.add(Spot{row.line, 1}, fmt::format("more than {} samples of the environment", Surroundings::most_samples),
                           fmt::format("at most {}", Surroundings::most_samples));
    into_.surroundings.samples.push_back(std::move(sample));
    auto& files = into_.surroundings.files;
    if (files.empty() || files.back() != file_.file) files.push_back(file_.file);
}

void ExportReader::read_trace(const Row& row) {
    const std::size_t position_place = plan_.trace_position.value_or(0), value_place = plan_.trace_value.value_or(0);
    const auto position = number_at(cell_at(row, position_place), position_place);
    const auto value = number_at(cell_at(row, value_place), value_place);
    if (!position || !value) return;
    TraceText& trace = into_.traces[entry_.trace->series];
    trace.source = &*entry_.trace;
    // Beyond what a document may hold they are only counted: memory does not grow with the file.
    if (++trace.samples <= TraceText::most_samples) {
        position->append_to(trace.text);
        trace.text += ',';
        value->append_to(trace.text);
        trace.text += '\n';
    }
    if (trace.files.empty() || trace.files.back() != file_.file) trace.files.push_back(file_.file);
}

void ExportReader::read_values(const Row& row, RowFacts& facts) {
    if (motion_) {
        std::optional<Decimal> at = facts.position;
        if (!at) {  // by actual positions: the first series says where the machine stands
            const ValuePlace& first = plan_.values.front().front();
            const Cell& cell = cell_at(row, first.cell);
            const auto actual = number_at(cell, first.cell);
            if (actual) at = nearest_target(mapping_.series[entry_.values.front().series], *actual, cell);
            if (!at) return;
        }
        const MotionRuns::Step step = motion_->next(at->value());
        if (step.is_new) {
            give_waiting(std::nullopt);
            ++runs_by_motion_;
        }
        step_ = step;
        if (step.approach) give_waiting(step.approach);
        facts.run = run_text_ = fmt::format("{} {}", file_.name, step.run);
    }
    for (std::size_t i = 0; i < entry_.values.size(); ++i)
        for (const ValuePlace& place : plan_.values[i]) read_value(row, entry_.values[i], place, facts);
}

/// A reading that the list of marks names: its value stands there, for the cell is empty.
void ExportReader::take_listed(const ValuePlace& place, const RowFacts& facts, Reading& reading) const {
    std::string_view list = facts.listed;
    while (const auto mark = take_mark(list)) {
        if (mark->run != (place.run.empty() ? facts.run : place.run)) continue;
        reading.excluded = mark->reason;
        Dialect plain;
        if (const auto value = number_in(mark->value, plain)) reading.value = value;
    }
}

std::optional<Decimal> ExportReader::nearest_target(const SeriesMapping& series, const Decimal& actual, const Cell& cell) {
    const double value = actual.value();
    const auto apart = [&](const Decimal& target) { return std::abs(target.value() - value); };
    const auto nearest = std::ranges::min_element(series.targets, {}, apart);
    double spacing = HUGE_VAL;
    for (const Decimal& other : series.targets)
        if (&other != &*nearest) spacing = std::min(spacing, std::abs(other.value() - nearest->value()));
    if (apart(*nearest) <= spacing / 4) return *nearest;
    faults_.add(cell, "position " + actual.text(), fmt::format("a position near a target of series \"{}\"", series.id),
                fmt::format("the nearest, {}, is further away than a quarter of the distance to its neighbour", nearest->text()),
                "nearest");
    return std::nullopt;
}

void ExportReader::read_value(const Row& row, const ValueColumns& values, const ValuePlace& place, RowFacts& facts) {
    const SeriesMapping& series = mapping_.series[values.series];
    const Cell& cell = cell_at(row, place.cell);
    Reading reading{.position = place.position ? place.position : facts.position,
                    .excluded = facts.excluded,
                    .time = facts.time,
                    .at = {cell.line, cell.column}};
    if (!is_missing(cell)) {
        reading.value = number_at(cell, place.cell);
        if (!reading.value) return;
    }
    if (!facts.listed.empty()) take_listed(place, facts, reading);
    const bool nearest = entry_.position && entry_.position->by == PositionBy::Nearest;
    if (nearest && !reading.value) return;  // where the machine stood is not known
    if (nearest) reading.position = nearest_target(series, *reading.value, cell);
    if (nearest && !reading.position) return;
    if (values.reads == Reads::Position && reading.value && reading.position) {
        const Decimal deviation = product(difference(*reading.value, *reading.position), deviation_units_in(series));
        reading.value = series.target_minus_actual ? deviation.negated() : deviation;
    }
    give(values, facts, place, reading);
}

}  // namespace wayfolio::gather
