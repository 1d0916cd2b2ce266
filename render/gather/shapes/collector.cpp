#include "gather/shapes/collector.hpp"

#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wayfolio::gather {
namespace {

std::optional<double> number_of(std::string_view name) {
    double number = 0;
    const auto [end, failure] = std::from_chars(name.data(), name.data() + name.size(), number);
    const bool whole = failure == std::errc() && end == name.data() + name.size();
    return whole && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

double moment(std::string_view time) {
    const auto date = input::iso_date(time);
    return date ? static_cast<double>(date->days()) * 86'400 + date->seconds.value_or(0) - 60.0 * date->offset_minutes.value_or(0) : 0;
}

std::string unit_words(const SeriesMapping& mapping) { return std::string(mapping.position_unit.spelling); }

}  // namespace

SeriesCollector::SeriesCollector(const SeriesMapping& mapping) : mapping_(mapping), targets_stated_(false) {
    if (!mapping.targets.empty()) set_targets(mapping.targets);
}

void SeriesCollector::set_targets(std::vector<Decimal> targets) {
    targets_ = std::move(targets);
    targets_stated_ = true;
    positions_.clear();
    places_.clear();
    for (const Decimal& target : targets_) {
        places_.emplace(target.value(), positions_.size());
        positions_.push_back(target.value());
    }
}

void SeriesCollector::begin_file(std::uint16_t file, ExportFaults& faults, const ExportMapping& entry) {
    file_ = file;
    faults_ = &faults;
    entry_ = &entry;
    if (file_names_.size() <= file) file_names_.resize(file + std::size_t{1});
    file_names_[file] = faults.file();
}

CollectedRun& SeriesCollector::run_of(const RunKey& key) {
    const auto is = [&](const CollectedRun& run) { return run.approach == key.approach && same_text(run.name, key.name); };
    if (last_run_ < runs_.size() && is(runs_[last_run_])) return runs_[last_run_];
    const auto [found, is_new] =
        run_places_.try_emplace((key.approach == Approach::Positive ? "+" : "-") + std::string(key.name), runs_.size());
    last_run_ = found->second;
    if (is_new) runs_.push_back({.name = std::string(key.name), .number = number_of(key.name), .approach = key.approach});
    return runs_[last_run_];
}

std::optional<std::size_t> SeriesCollector::next_target(const CollectedRun& run, Spot at) {
    if (run.taken < targets_.size()) {
        const bool back = entry_->position->by == PositionBy::Travel && run.approach == Approach::Negative;
        return back ? targets_.size() - 1 - run.taken : run.taken;
    }
    faults_->add(at, fmt::format("a reading more in run \"{}\" ({})", run.name, document::word(run.approach)),
                 fmt::format("one for each of the {} targets", targets_.size()), "do the targets of the mapping belong to this export?");
    return std::nullopt;
}

std::optional<std::size_t> SeriesCollector::target_at(const Decimal& position, Spot at) {
    const double value = position.value();
    for (const std::size_t next : {last_target_ + 1, last_target_, last_target_ - 1})
        if (next < targets_.size() && positions_[next] == value) return last_target_ = next;
    if (const auto found = places_.find(value); found != places_.end()) return last_target_ = found->second;
    if (targets_stated_) {
        const auto apart = [&](const Decimal& target) { return std::abs(target.value() - value); };
        const auto nearest = std::ranges::min_element(targets_, {}, apart);
        faults_->add(at, fmt::format("position {}", position.text()), fmt::format("one of the targets of series \"{}\"", mapping_.id),
                     nearest == targets_.end() ? "" : fmt::format("the nearest is {} {}", nearest->text(), unit_words(mapping_)));
        return std::nullopt;
    }
    constexpr std::size_t most = 10'000;
    if (targets_.size() == most) {
        faults_->add(at, fmt::format("more than {} targets", most), fmt::format("at most {}", most),
                     "are these actual positions? then say \"nearest\" and name the targets");
        return std::nullopt;
    }
    targets_.push_back(position);
    positions_.push_back(value);
    places_.emplace(value, targets_.size() - 1);
    return last_target_ = targets_.size() - 1;
}

/// Rows mostly go from one target to its neighbour, and write a target alike.
bool SeriesCollector::is_next_target(const Decimal& position) const {
    const std::size_t next = last_target_ + 1;
    return next < targets_.size() && targets_[next].digits == position.digits && targets_[next].exponent == position.exponent;
}

std::size_t SeriesCollector::target_of(const CollectedRun& run, const Reading& reading) {
    if (reading.position && is_next_target(*reading.position)) return ++last_target_;
    return (reading.position ? target_at(*reading.position, reading.at) : next_target(run, reading.at)).value_or(no_target);
}

void SeriesCollector::note_twice(const CollectedRun& run, std::size_t target, const KeptReading& first, Spot at) {
    const std::string& where = file_names_[first.file];
    faults_->add(at,
                 fmt::format("a second reading at {} in run \"{}\" ({}) of series \"{}\"", targets_[target].text(), run.name,
                             document::word(run.approach), mapping_.id),
                 "one reading for each target and run",
                 fmt::format("the first stands in {} {} of {}", "line", first.line, where.empty() ? faults_->file() : where),
                 "twice " + run.name + std::string(document::word(run.approach)) + mapping_.id);
}

void SeriesCollector::note_time(CollectedRun& run, std::string_view time) {
    if (time.empty()) return;
    if (run.started.empty() || moment(time) < moment(run.started)) run.started = time;
    if (run.ended.empty() || moment(time) > moment(run.ended)) run.ended = time;
}

void SeriesCollector::note_way(CollectedRun& run, double position) const {
    if (run.taken > 0 && position > run.last_position) run.rising = true;
    if (run.taken > 0 && position < run.last_position) run.falling = true;
    run.last_position = position;
}

void SeriesCollector::add(const RunKey& key, const Reading& reading) {
    CollectedRun& run = run_of(key);
    const std::size_t target = target_of(run, reading);
    if (target == no_target) return;
    if (files_.empty() || files_.back() != file_) files_.push_back(file_);
    if (run.readings.size() <= target) run.readings.resize(std::max(target + 1, std::min(targets_.size(), 4 * run.readings.size())));
    KeptReading& kept = run.readings[target];
    if (kept.state != KeptReading::None) return note_twice(run, target, kept, reading.at);
    if (mapping_.steps && reading.value && targets_stated_ && target == 0)
        faults_->add(reading.at, "a reading at the first station", "none there: steps are counted from it", "leave its cell empty",
                     "steps");
    const Decimal value = reading.value.value_or(Decimal{});
    kept = {value.digits, reading.at.line, file_, static_cast<std::int8_t>(value.exponent),
            reading.value ? KeptReading::Present : KeptReading::Missing};
    if (!reading.excluded.empty()) run.excluded.emplace(target, reading.excluded);
    note_way(run, positions_[target]);
    note_time(run, reading.time);
    ++run.taken;
    run.file = file_;
    run.last = reading.at;
}

void SeriesCollector::end_file() {
    for (const CollectedRun& run : runs_) {
        if (run.file != file_ || run.taken == 0) continue;
        const bool in_order = entry_->position && entry_->position->by != PositionBy::Column && entry_->position->by != PositionBy::Nearest;
        if (in_order && run.taken < targets_.size())
            faults_->add(run.last, fmt::format("{} rows in run \"{}\" ({})", run.taken, run.name, document::word(run.approach)),
                         fmt::format("one for each of the {} targets", targets_.size()),
                         "a missing reading is an empty cell, in a row of its own");
        if (run.approach == Approach::Positive && run.taken > 2 && run.falling && !run.rising && !entry_->falling_positive &&
            !entry_->motion)
            faults_->add(
                run.last,
                fmt::format("targets that fall to {} in run \"{}\", named positive", decimal_of(run.last_position).text(), run.name),
                "targets that rise in a positive run",
                R"(are the words for positive and negative exchanged? say "falling_positive": true if the rows are only listed so)");
    }
}

}  // namespace wayfolio::gather
