#include "document/read/npy_array.hpp"
#include "document/read/number_rules.hpp"
#include "document/read/series_reading.hpp"

#include "input/encoding.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace wayfolio::document {
namespace {

TraceSample sample_of(double position, double written, const SeriesReading& at) {
    return {Position(position + 0.0, at.series.position_unit), Deviation(at.actual_minus_target(written), at.series.unit)};
}

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
        if (position && written) samples.push_back(sample_of(*position, *written, at));
    }
    if (value.is(JsonKind::Array) && value.items.empty()) at.reading.faults.add_wrong(value, "at least one sample");
    return samples;
}

/// One line of a trace file, taken apart from its front.
class Columns {
public:
    explicit Columns(std::string_view line) : rest_(line) { skip_blanks(); }

    [[nodiscard]] bool empty() const { return rest_.empty(); }
    [[nodiscard]] bool begins_number() const {
        return !rest_.empty() && ((rest_[0] >= '0' && rest_[0] <= '9') || std::string_view("+-.").find(rest_[0]) != std::string_view::npos);
    }
    [[nodiscard]] std::string_view rest() const { return rest_; }

    std::optional<double> number() {
        if (rest_.starts_with('+')) rest_.remove_prefix(1);
        double value = 0;
        const char* const end = rest_.data() + rest_.size();
        const auto [read_to, failure] = begins_number() ? std::from_chars(rest_.data(), end, value)
                                                        : std::from_chars_result{rest_.data(), std::errc::invalid_argument};
        // "-inf" and "-nan" begin like numbers.
        if (failure != std::errc() || value != value || value - value != 0) return std::nullopt;
        rest_.remove_prefix(static_cast<std::size_t>(read_to - rest_.data()));
        return value;
    }
    /// Blanks, one comma or semicolon among them, or both.
    bool separator() {
        const bool blanks = skip_blanks();
        const bool mark = rest_.starts_with(',') || rest_.starts_with(';');
        if (mark) rest_.remove_prefix(1);
        skip_blanks();
        return blanks || mark;
    }
    bool skip_blanks() {
        const std::size_t count = std::min(rest_.find_first_not_of(" \t\r"), rest_.size());
        rest_.remove_prefix(count);
        return count != 0;
    }

private:
    std::string_view rest_;
};

struct TraceFile {
    const Value& mention;
    const SeriesReading& at;

    void fault(std::size_t line, std::size_t column, std::string found, std::string expected, std::string hint = {}) const {
        input::Problem problem{std::string(mention.text), {line, column, {}}, std::move(found), std::move(expected), std::move(hint)};
        at.reading.faults.add_side_file(mention, std::move(problem));
    }

    void read_line(std::string_view line, std::size_t number, std::vector<TraceSample>& samples) const {
        Columns columns(line);
        const auto column = [&] { return static_cast<std::size_t>(columns.rest().data() - line.data()) + 1; };
        const auto position = columns.number();
        if (!position) return fault(number, column(), input::quoted(columns.rest()), "a position: a number with a decimal point");
        const bool separated = columns.separator();
        const auto value = separated ? columns.number() : std::nullopt;
        if (!value)
            return fault(number, column(), input::quoted(columns.rest()), "a value after the position: a number with a decimal point");
        columns.skip_blanks();
        if (!columns.empty())
            return fault(number, column(), input::quoted(columns.rest()), "two columns, position and value, with decimal points");
        const auto rejected = [&](double read, const NumberRule& rule) {
            if (!rule.holds(read)) fault(number, 1, fmt::format("{}", read), std::string(rule.expected));
            return !rule.holds(read);
        };
        if (rejected(*position, position_rule(at.series.position_unit)) || rejected(*value, deviation_rule(at.series.unit))) return;
        samples.push_back(sample_of(*position, *value, at));
    }

    /// Samples of .npy have no line: they are counted from 1.
    void read_row(const NpyArray& array, std::size_t row, std::vector<TraceSample>& samples) const {
        const double position = array.at(row, 0), value = array.at(row, 1);
        const auto holds = [&](double read, const NumberRule& rule, std::string_view what) {
            if (std::isfinite(read) && rule.holds(read)) return true;
            fault(0, 0, fmt::format("{} as the {} of sample {}", read, what, row + 1), std::string(rule.expected));
            return false;
        };
        const bool position_holds = holds(position, position_rule(at.series.position_unit), "position");
        if (holds(value, deviation_rule(at.series.unit), "value") && position_holds) samples.push_back(sample_of(position, value, at));
    }
};

std::vector<TraceSample> read_npy_trace(std::string_view bytes, const TraceFile& file) {
    std::vector<TraceSample> samples;
    auto opened = NpyArray::open(bytes);
    if (auto* const wrong = std::get_if<NpyArray::Fault>(&opened)) {
        file.fault(0, 0, std::move(wrong->found), std::move(wrong->expected), std::move(wrong->hint));
        return samples;
    }
    const NpyArray& array = std::get<NpyArray>(opened);
    if (array.rows() > most_samples) {
        file.fault(0, 0, fmt::format("{} samples", array.rows()), fmt::format("at most {}", most_samples));
        return samples;
    }
    if (array.rows() == 0) file.fault(0, 0, "no samples", "two columns, position and value");
    samples.reserve(array.rows());
    for (std::size_t row = 0; row < array.rows(); ++row) file.read_row(array, row, samples);
    return samples;
}

}  // namespace

std::vector<TraceSample> read_trace_file(std::string_view bytes, const Value& mention, const SeriesReading& at) {
    const TraceFile file{mention, at};
    if (bytes.starts_with(NpyArray::magic)) return read_npy_trace(bytes, file);
    std::vector<TraceSample> samples;
    if (input::looks_like_utf16(bytes)) file.fault(1, 1, "UTF-16", "UTF-8");
    if (input::looks_like_utf16(bytes)) return samples;
    if (bytes.starts_with(input::utf8_byte_order_mark)) bytes.remove_prefix(input::utf8_byte_order_mark.size());
    samples.reserve(std::min<std::size_t>(most_samples, bytes.size() / 4));
    bool header_possible = true;
    std::size_t lines = 0;  // with samples, faulty ones included
    for (std::size_t number = 1; !bytes.empty(); ++number) {
        const std::size_t end = std::min(bytes.find('\n'), bytes.size());
        const std::string_view line = bytes.substr(0, end);
        bytes.remove_prefix(std::min(end + 1, bytes.size()));
        const Columns start(line);
        if (start.empty()) continue;
        const bool header = header_possible && !start.begins_number();
        header_possible = false;
        if (header) continue;
        if (samples.size() == most_samples) {
            file.fault(number, 1, fmt::format("more than {} samples", most_samples), fmt::format("at most {}", most_samples));
            return samples;
        }
        ++lines;
        file.read_line(line, number, samples);
    }
    if (lines == 0) file.fault(1, 1, "no samples", "two columns, position and value");
    return samples;
}

Trace read_trace(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "a trace");
    Trace trace;
    trace.approach = reader.choice("approach", "a direction of approach", approaches);
    trace.pitch = reader.number("pitch", pitch);
    const Value *const file = reader.find("file"), *const samples = reader.find("samples");
    if (file != nullptr && samples != nullptr) at.reading.faults.add_key(*samples, "\"file\" or \"samples\", not both");
    if (file == nullptr && samples == nullptr && reader.is_object())
        at.reading.faults.add_missing(value, "samples", "\"file\" or \"samples\"");
    if (samples != nullptr) trace.samples = read_samples(*samples, reader, at);
    if (file != nullptr) {
        if (file->is(JsonKind::String)) trace.file = file->text;
        if (const auto bytes = read_side_file(*file, at.reading)) trace.samples = read_trace_file(*bytes, *file, at);
    }
    reader.finish();
    return trace;
}

}  // namespace wayfolio::document
