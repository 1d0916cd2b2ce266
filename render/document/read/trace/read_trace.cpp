#include "document/read/number_rules.hpp"
#include "document/read/series_reading.hpp"
#include "document/read/trace/trace_file.hpp"
#include "input/digest.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace wayfolio::document {
namespace {

/// How a series writes its samples.
struct SampleForm {
    PositionUnit position_unit;
    DeviationUnit unit;
    bool target_minus_actual;

    explicit SampleForm(const Series& series)
        : position_unit(series.position_unit), unit(series.unit), target_minus_actual(series.target_minus_actual) {}
    [[nodiscard]] TraceSample sample(double position, double written) const {
        return {Position(position + 0.0, position_unit), Deviation(target_minus_actual ? 0.0 - written : written + 0.0, unit)};
    }
};

std::vector<TraceSample> read_samples(const Value& value, ObjectReader& reader, const SeriesReading& at) {
    constexpr std::string_view expected = "a pair [position, value] of numbers";
    std::vector<TraceSample> samples;
    const auto items = reader.array("samples", "an array of pairs [position, value]", most_samples);
    samples.reserve(items.size());
    for (const Value& item : items) {
        const bool pair =
            item.is(JsonKind::Array) && item.items.size() == 2 && item.items[0].is(JsonKind::Number) && item.items[1].is(JsonKind::Number);
        if (!pair) {
            at.reading.faults.add_wrong(item, std::string(expected));
            continue;
        }
        const auto position = reader.number_of(item.items[0], position_rule(at.series.position_unit));
        const auto written = reader.number_of(item.items[1], deviation_rule(at.series.unit));
        if (position && written) samples.push_back(SampleForm(at.series).sample(*position, *written));
    }
    if (value.is(JsonKind::Array) && value.items.empty()) at.reading.faults.add_wrong(value, "at least one sample");
    return samples;
}

/// Reads a trace file once, looks at each number, and keeps the samples, or what is needed of them where they are many.
class TraceReading {
public:
    TraceReading(const Value& mention, const SeriesReading& at, bool array)
        : mention_(mention), at_(at), array_(array), form_(at.series), position_rule_(position_rule(at.series.position_unit)),
          value_rule_(deviation_rule(at.series.unit)) {}

    void read(const input::ByteSource& source) {
        const auto take_some = [this](std::span<const WrittenSample> samples, std::size_t places_before) { take(samples, places_before); };
        read_trace_file(source, {take_some, [this](TraceFault found) { fault(std::move(found)); }});
    }

    /// @param again hands on the samples once more
    void give(Trace& trace, std::string sha256, std::function<void(const TakeSamples&)> again) {
        if (count_ <= most_samples) {
            trace.samples = std::move(begin_);
            return;
        }
        const PositionUnit& unit = at_.series.position_unit;
        trace.many = std::make_shared<const ManySamples>(ManySamples{.count = count_,
                                                                     .low = Position(low_, unit),
                                                                     .high = Position(high_, unit),
                                                                     .begin = std::move(begin_),
                                                                     .sha256 = std::move(sha256),
                                                                     .walk = std::move(again)});
    }

private:
    void take(std::span<const WrittenSample> samples, std::size_t places_before) {
        if (const Reach reach = reach_of(samples); all_hold(reach)) {
            low_ = std::min(low_, reach.low);
            high_ = std::max(high_, reach.high);
            for (const WrittenSample& sample : samples.first(std::min(samples.size(), most_samples - std::min(count_, most_samples))))
                begin_.push_back(form_.sample(sample.position, sample.value));
            count_ += samples.size();
        } else {
            take_each(samples, places_before);
        }
        if (count_ > most_samples && begin_.size() > kept_of_many) {
            begin_.resize(kept_of_many, begin_.front());
            begin_.shrink_to_fit();
        }
    }
    /// Of some samples the least and the greatest numbers.
    struct Reach {
        double low = HUGE_VAL, high = -HUGE_VAL, least = HUGE_VAL, greatest = -HUGE_VAL;
        bool finite = true;
    };
    static Reach reach_of(std::span<const WrittenSample> samples) {
        Reach reach;
        for (const auto& [position, value, place] : samples) {
            reach.low = std::min(reach.low, position);
            reach.high = std::max(reach.high, position);
            reach.least = std::min(reach.least, value);
            reach.greatest = std::max(reach.greatest, value);
            reach.finite = reach.finite && position - position == 0 && value - value == 0;
        }
        return reach;
    }
    /// Both rules bound a size: what holds of the least and of the greatest holds of all between.
    [[nodiscard]] bool all_hold(const Reach& reach) const {
        return reach.finite && position_rule_.holds(reach.low) && position_rule_.holds(reach.high) && value_rule_.holds(reach.least) &&
               value_rule_.holds(reach.greatest);
    }
    void take_each(std::span<const WrittenSample> samples, std::size_t places_before) {
        for (WrittenSample sample : samples) {
            sample.place += places_before;
            if (array_ ? !holds_in_array(sample) : !holds_in_line(sample)) continue;
            low_ = std::min(low_, sample.position);
            high_ = std::max(high_, sample.position);
            if (++count_ <= most_samples) begin_.push_back(form_.sample(sample.position, sample.value));
        }
    }
    [[nodiscard]] bool holds_in_line(const WrittenSample& sample) {
        const auto rejected = [&](double read, const NumberRule& rule) {
            if (!rule.holds(read)) fault({sample.place, 1, fmt::format("{}", read), std::string(rule.expected)});
            return !rule.holds(read);
        };
        return !rejected(sample.position, position_rule_) && !rejected(sample.value, value_rule_);
    }
    /// Samples of .npy have no line: they are counted from 1.
    [[nodiscard]] bool holds_in_array(const WrittenSample& sample) {
        const auto holds = [&](double read, const NumberRule& rule, std::string_view what) {
            if (std::isfinite(read) && rule.holds(read)) return true;
            fault({0, 0, fmt::format("{} as the {} of sample {}", read, what, sample.place), std::string(rule.expected)});
            return false;
        };
        const bool position_holds = holds(sample.position, position_rule_, "position");
        return holds(sample.value, value_rule_, "value") && position_holds;
    }
    void fault(TraceFault found) {
        input::Problem problem{std::string(mention_.text), {found.line, found.column, {}}, std::move(found.found),
                               std::move(found.expected), std::move(found.hint)};
        at_.reading.faults.add_side_file(mention_, std::move(problem));
    }

    static constexpr std::size_t kept_of_many = 1'000;  // enough to see with how many decimals they are written

    const Value& mention_;
    const SeriesReading& at_;
    bool array_;
    SampleForm form_;
    const NumberRule &position_rule_, &value_rule_;
    std::size_t count_ = 0;
    double low_ = HUGE_VAL, high_ = -HUGE_VAL;
    std::vector<TraceSample> begin_;
};

/// The samples of a file that was read before without a fault.
void walk_again(const input::ByteSource& source, const SampleForm& form, const TakeSamples& take) {
    std::vector<TraceSample> some;
    const auto take_written = [&](std::span<const WrittenSample> samples, std::size_t) {
        some.resize(std::max(some.size(), samples.size()), form.sample(0, 0));
        for (std::size_t i = 0; i < samples.size(); ++i) some[i] = form.sample(samples[i].position, samples[i].value);
        take(std::span(some).first(samples.size()));
    };
    read_trace_file(source, {take_written, [](const TraceFault& found) {
                                 throw input::InputMissing("a trace", "was changed: " + found.found);
                             }});
}

void read_file_of(Trace& trace, const Value& mention, SeriesReading& at) {
    if (mention.is(JsonKind::String)) trace.file = mention.text;
    std::optional<TraceReading> reading;
    const auto file = side_file_source(mention, at.reading, [&](const input::ByteSource& source) {
        reading.emplace(mention, at, is_npy(source));
        reading->read(source);
    });
    if (!file) return;
    reading->give(trace, file->sha256, [source = file->source, form = SampleForm(at.series)](const TakeSamples& take) {
        walk_again(source, form, take);
    });
}

}  // namespace

Trace read_trace(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "a trace");
    Trace trace;
    trace.approach = reader.choice("approach", "a direction of approach", approaches);
    trace.pitch = reader.number("pitch", pitch);
    trace.cutoff = reader.number("cutoff", cutoff);
    const Value *const file = reader.find("file"), *const samples = reader.find("samples");
    if (file != nullptr && samples != nullptr) at.reading.faults.add_key(*samples, "\"file\" or \"samples\", not both");
    if (file == nullptr && samples == nullptr && reader.is_object())
        at.reading.faults.add_missing(value, "samples", "\"file\" or \"samples\"");
    if (samples != nullptr) trace.samples = read_samples(*samples, reader, at);
    if (file != nullptr) read_file_of(trace, *file, at);
    reader.finish();
    return trace;
}

}  // namespace wayfolio::document
