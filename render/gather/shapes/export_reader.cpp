#include "gather/shapes/export_reader.hpp"

#include "gather/shapes/times.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::gather {
namespace {

/// The cell behind the one that reads `word`, also as "word:" or "word: text" in one cell.
std::optional<Cell> behind(const Row& row, std::string_view word) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        const std::string_view text = row.cells[i].trimmed();
        if (!text.starts_with(word)) continue;
        Cell rest = row.cells[i];
        rest.text = text.substr(word.size());
        rest.number.reset();
        const bool mark = rest.trimmed().starts_with(':') || rest.trimmed().starts_with('=');
        if (!rest.empty() && !mark) continue;
        if (mark) rest.text = rest.trimmed().substr(1);
        if (!rest.empty()) return rest;
        for (std::size_t next = i + 1; next < row.cells.size(); ++next)
            if (!row.cells[next].empty()) return row.cells[next];
        rest.text = {};
        return rest;
    }
    return std::nullopt;
}

}  // namespace

ExportReader::ExportReader(const ExportMapping& entry, const Mapping& mapping, ExportBeingRead file, ExportFaults& faults, Collected& into)
    : entry_(entry), mapping_(mapping), file_(std::move(file)), faults_(faults), into_(into), heads_(entry, mapping.series),
      approach_by_values_(std::ranges::all_of(entry.values, [](const ValueColumns& values) { return values.approach.has_value(); })) {
    const auto add = [&](const std::optional<Where>& where) {
        if (const Above* word = where ? std::get_if<Above>(&*where) : nullptr) above_words_.push_back(word->word);
    };
    if (entry.block) above_words_.push_back(entry.block->first);
    if (entry.approach) add(entry.approach->where);
    if (entry.run) add(entry.run->where);
    if (entry.time)
        for (const Where& part : entry.time->parts) add(part);
    if (entry.motion) motion_.emplace(*entry.motion);
    for (const ValueColumns& values : entry.values) into_.series[values.series]->begin_file(file_.file, faults, entry);
}

void ExportReader::row(const Row& row) {
    if (heads_.by_number()) {
        if (row.line < entry_.first_row) {
            ++passed_over_;
            look_above(row);
            return;
        }
        if (!in_data_ && blocks_ == 0) begin_block(heads_.plan_by_number(), row);
    } else {
        const bool may_be_head =
            !in_data_ || (plan_.anchor < row.cells.size() && same_text(row.cells[plan_.anchor].trimmed(), plan_.anchor_head));
        if (may_be_head)
            if (auto plan = heads_.plan_of(row, faults_)) {
                ++passed_over_;
                return begin_block(*std::move(plan), row);
            }
    }
    const bool empty = row.empty();
    if (in_data_ && empty && entry_.ends_at_empty_row) in_data_ = false;
    if (in_data_ && !empty && look_above(row))
        in_data_ = false;
    else if (!in_data_ && !empty)
        look_above(row);
    if (!in_data_ || empty || skipping_)
        ++passed_over_;
    else
        data_row(row);
}

void ExportReader::begin_block(ColumnPlan plan, const Row& row) {
    give_waiting(std::nullopt);
    plan_ = std::move(plan);
    head_texts_.clear();
    if (plan_.width > 0)
        for (const Cell& cell : row.cells) head_texts_.emplace_back(cell.trimmed());
    in_data_ = true;
    first_width_ = 0;
    ++blocks_;
    if (motion_) motion_->interrupt();
    block_facts_ = {};
    skipping_ = false;
    if (entry_.block) {
        const auto found = above_.find(entry_.block->first);
        skipping_ = found == above_.end() || found->second.text != entry_.block->second;
        if (skipping_) return;
    }
    if (entry_.approach)
        if (const AboveCell* cell = required_above(entry_.approach->where, row))
            read_approach({cell->text, cell->at.line, cell->at.column}, block_facts_.approach);
    if (entry_.run)
        if (const AboveCell* cell = required_above(entry_.run->where, row)) block_facts_.run = cell->text;
    if (!entry_.time) return;
    std::string text;
    Spot at;
    for (const Where& part : entry_.time->parts)
        if (const AboveCell* cell = required_above(part, row)) text += (text.empty() ? "" : " ") + cell->text, at = cell->at;
    if (text.empty()) return;
    if (auto time = time_in(text, *entry_.time))
        block_facts_.time = *std::move(time);
    else
        faults_.add(at, "\"" + text + "\"", time_words(*entry_.time));
}

/// Notes the cells that the mapping wants of lines above a head. @returns whether the row has one
bool ExportReader::look_above(const Row& row) {
    bool any = false;
    for (const std::string& word : above_words_) {
        const auto cell = behind(row, word);
        if (!cell) continue;
        AboveCell& kept = above_[word];
        kept = {std::string(cell->trimmed()), {cell->line, cell->column}, blocks_, kept.times + 1};
        any = true;
    }
    return any;
}

/// A word above the head counts for its block; one that stands once, above all blocks, counts for all.
const ExportReader::AboveCell* ExportReader::above(const std::optional<Where>& where) const {
    const Above* const word = where ? std::get_if<Above>(&*where) : nullptr;
    const auto found = word == nullptr ? above_.end() : above_.find(word->word);
    if (found == above_.end() || found->second.text.empty()) return nullptr;
    const bool of_this_block = found->second.blocks + 1 == blocks_, of_the_file = found->second.blocks == 0 && found->second.times == 1;
    return of_this_block || of_the_file ? &found->second : nullptr;
}

const ExportReader::AboveCell* ExportReader::required_above(const std::optional<Where>& where, const Row& row) {
    if (!where || !std::holds_alternative<Above>(*where)) return nullptr;
    const AboveCell* const cell = above(where);
    if (cell == nullptr)
        faults_.add(Spot{row.line, 1}, fmt::format("no text behind \"{}\" above this head", std::get<Above>(*where).word),
                    fmt::format("a cell \"{}\" in the lines above, and its value behind it", std::get<Above>(*where).word));
    return cell;
}

void ExportReader::check_width(const Row& row) {
    if (file_.is_sheet) return;
    const bool by_blanks = entry_.dialect.delimiter == Dialect::blanks;
    const std::size_t width = plan_.width > 0 ? plan_.width : first_width_;
    if (first_width_ == 0) first_width_ = row.cells.size();
    if (width == 0) return;
    const auto fault = [&](std::string hint) {
        faults_.add(Spot{row.line, 1}, fmt::format("a row of {} cells", row.cells.size()),
                    fmt::format("{} cells, as {}", width, plan_.width > 0 ? "the head has" : "the first row has"), std::move(hint));
    };
    if (by_blanks && row.cells.size() != width)
        fault(plan_.width > 0 ? "between blanks no cell can be empty, and a head with a blank in it counts as two" : "");
    if (by_blanks || row.cells.size() <= width || plan_.width == 0) return;
    if (std::ranges::all_of(row.cells.subspan(width), &Cell::empty)) return;
    fault(entry_.dialect.delimiter == ',' ? "decimal commas between commas?" : "");
}

void ExportReader::data_row(const Row& row) {
    ++rows_;
    check_width(row);
    row_facts_.begin(block_facts_);
    read_facts(row, row_facts_);
    if (!entry_.surroundings.empty()) read_surroundings(row, row_facts_);
    if (entry_.trace) read_trace(row);
    if (!entry_.values.empty() && row_facts_.sound) read_values(row, row_facts_);
}

void ExportReader::finish() {
    give_waiting(std::nullopt);
    if (blocks_ == 0 && faults_.any()) return;  // why nothing was found is told already
    if (blocks_ == 0) {
        if (heads_.by_number())
            faults_.add(Spot{}, "no row with readings", fmt::format("rows from {} on", entry_.first_row));
        else
            heads_.note_no_head(faults_);
    } else if (rows_ == 0) {
        const bool chosen = entry_.block.has_value();
        faults_.add(Spot{}, chosen ? "no block of this kind" : "no row with readings",
                    chosen ? fmt::format("a block above which \"{}\" stands behind \"{}\"", entry_.block->second, entry_.block->first)
                           : "rows below the head");
    }
    if (const auto trace = entry_.trace ? into_.traces.find(entry_.trace->series) : into_.traces.end();
        trace != into_.traces.end() && trace->second.samples > TraceText::most_samples)
        faults_.add(Spot{}, fmt::format("{} samples on the fly", trace->second.samples), fmt::format("at most {}", TraceText::most_samples),
                    "export every tenth of them, or a part of the travel");
    if (!faults_.any())
        for (const ValueColumns& values : entry_.values) into_.series[values.series]->end_file();
}

/// An approach stays open where the row at hand is the first of its run.
void ExportReader::give_waiting(std::optional<Approach> approach) {
    for (const Waiting& waiting : waiting_) {
        if (!approach) {
            faults_.add(waiting.reading.at, "a run of one reading", "runs of several, which the way of the position tells apart",
                        R"(say "motion": ["positive"] if the machine was driven back between runs without readings)", "one reading");
            continue;
        }
        Reading reading = waiting.reading;
        reading.excluded = waiting.excluded;
        reading.time = waiting.time;
        const std::string name = fmt::format("{} {}", file_.name, step_.run);
        into_.series[waiting.series]->add({name, *approach}, reading);
    }
    waiting_.clear();
}

void ExportReader::give(const ValueColumns& values, const RowFacts& facts, const ValuePlace& place, const Reading& reading) {
    SeriesCollector& series = *into_.series[values.series];
    if (motion_ && !step_.approach)
        waiting_.push_back({values.series, reading, std::string(reading.excluded), std::string(reading.time)});
    else if (motion_)
        series.add({facts.run, *step_.approach}, reading);
    else {
        const Approach approach = values.approach ? *values.approach : *facts.approach;
        if (place.run.empty() || facts.run.empty())
            series.add({place.run.empty() ? facts.run : std::string_view(place.run), approach}, reading);
        else
            series.add({fmt::format("{} {}", facts.run, place.run), approach}, reading);
    }
}

/// Empty, where the row ends before it.
const Cell& ExportReader::absent_cell(const Row& row, std::size_t place) {
    const Cell* const last = row.cells.empty() ? nullptr : &row.cells.back();
    const auto behind_last = last == nullptr ? 1 : last->column + static_cast<std::uint32_t>(last->text.size());
    return absent_ = {{}, row.line, file_.is_sheet ? static_cast<std::uint32_t>(place + 1) : behind_last};
}

std::string ExportReader::head_words(std::size_t place) const {
    return place < head_texts_.size() ? fmt::format("column \"{}\"", head_texts_[place]) : fmt::format("column {}", place + 1);
}

}  // namespace wayfolio::gather
