#include "document/read/trace/trace_file.hpp"

#include "document/read/trace/npy_array.hpp"
#include "input/encoding.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <vector>

namespace wayfolio::document {
namespace {

constexpr std::size_t samples_at_a_time = 4096;

/// One line of a trace file, taken apart from its front.
class Columns {
public:
    explicit Columns(std::string_view line) : rest_(line) { skip_blanks(); }

    [[nodiscard]] bool empty() const { return rest_.empty(); }
    [[nodiscard]] bool begins_number() const {
        if (rest_.empty()) return false;
        const char first = rest_[0];
        return (first >= '0' && first <= '9') || first == '-' || first == '.' || first == '+';
    }
    [[nodiscard]] std::string_view rest() const { return rest_; }

    std::optional<double> number() {
        if (rest_.starts_with('+')) rest_.remove_prefix(1);
        double value = 0;
        const char* const end = rest_.data() + rest_.size();
        const auto [read_to, failure] =
            begins_number() ? std::from_chars(rest_.data(), end, value) : std::from_chars_result{rest_.data(), std::errc::invalid_argument};
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
        std::size_t count = 0;  // by hand: most lines have one blank, and a search for several letters is a call for each
        while (count < rest_.size() && (rest_[count] == ' ' || rest_[count] == '\t' || rest_[count] == '\r')) ++count;
        rest_.remove_prefix(count);
        return count != 0;
    }

private:
    std::string_view rest_;
};

/// Takes a text apart that comes in pieces, line by line.
class TraceText {
public:
    explicit TraceText(const TraceFileSink& sink) : sink_(sink) { samples_.reserve(samples_at_a_time); }

    /// @returns whether to go on
    bool add(std::string_view piece) {
        if (number_ == 0 && begun_.empty()) {
            if (input::looks_like_utf16(piece)) return fault({1, 1, "UTF-16", "UTF-8"});
            if (piece.starts_with(input::utf8_byte_order_mark)) piece.remove_prefix(input::utf8_byte_order_mark.size());
        }
        for (std::size_t end = piece.find('\n'); end != std::string_view::npos; end = piece.find('\n')) {
            const std::string_view line = piece.substr(0, end);
            read_line(begun_.empty() ? line : begun_.append(line));
            begun_.clear();
            piece.remove_prefix(end + 1);
        }
        begun_.append(piece);
        if (lines_ > most_samples_of_a_file)
            return fault({number_, 1, fmt::format("more than {} samples", most_samples_of_a_file),
                          fmt::format("at most {}", most_samples_of_a_file)});
        if (begun_.size() > longest_line)
            return fault({number_ + 1, 1, fmt::format("a line of more than {} bytes", longest_line), "two columns, position and value"});
        return true;
    }
    void finish() {
        if (!begun_.empty()) read_line(begun_);
        flush();
        if (lines_ == 0) fault({1, 1, "no samples", "two columns, position and value"});
    }

private:
    static constexpr std::size_t longest_line = 65'536;

    void flush() {
        if (!samples_.empty()) sink_.take(samples_);
        samples_.clear();
    }
    /// Told behind the samples before it.
    bool fault(TraceFault fault) {
        flush();
        sink_.fault(std::move(fault));
        return false;
    }

    void read_line(std::string_view line) {
        ++number_;
        Columns columns(line);
        if (columns.empty()) return;
        const bool header = lines_ == 0 && !header_ && !columns.begins_number();
        if (header) {
            header_ = true;
            return;
        }
        ++lines_;
        const auto wrong = [&](std::string expected) {
            const auto column = static_cast<std::size_t>(columns.rest().data() - line.data()) + 1;
            fault({number_, column, input::quoted(columns.rest()), std::move(expected)});
        };
        const auto position = columns.number();
        if (!position) return wrong("a position: a number with a decimal point");
        const bool separated = columns.separator();
        const auto value = separated ? columns.number() : std::nullopt;
        if (!value) return wrong("a value after the position: a number with a decimal point");
        columns.skip_blanks();
        if (!columns.empty()) return wrong("two columns, position and value, with decimal points");
        samples_.push_back({*position, *value, number_});
        if (samples_.size() == samples_at_a_time) flush();
    }

    const TraceFileSink& sink_;
    std::vector<WrittenSample> samples_;
    std::string begun_;                   ///< the line that the last piece left unfinished
    std::size_t number_ = 0, lines_ = 0;  ///< of the line read last; lines with samples, faulty ones included
    bool header_ = false;
};

void read_text(const input::ByteSource& source, const TraceFileSink& sink) {
    TraceText text(sink);
    std::array<char, 65536> piece{};
    for (std::size_t place = 0; place < source.size;) {
        const std::size_t got = source.read_at(place, piece);
        if (got == 0) break;
        if (!text.add({piece.data(), got})) return;
        place += got;
    }
    text.finish();
}

void read_npy(const input::ByteSource& source, const TraceFileSink& sink) {
    auto opened = NpyArray::open(source);
    if (auto* const wrong = std::get_if<NpyArray::Fault>(&opened))
        return sink.fault({0, 0, std::move(wrong->found), std::move(wrong->expected), std::move(wrong->hint)});
    const NpyArray& array = std::get<NpyArray>(opened);
    if (array.rows() > most_samples_of_a_file)
        return sink.fault({0, 0, fmt::format("{} samples", array.rows()), fmt::format("at most {}", most_samples_of_a_file)});
    if (array.rows() == 0) return sink.fault({0, 0, "no samples", "two columns, position and value"});
    std::vector<WrittenSample> samples;
    std::size_t row = 0;
    array.walk([&](std::span<const NpyArray::Row> rows) {
        samples.clear();
        for (const NpyArray::Row& one : rows) samples.push_back({one.first, one.second, ++row});
        sink.take(samples);
    });
}

}  // namespace

bool is_npy(const input::ByteSource& source) {
    std::array<char, NpyArray::magic.size()> start{};
    return source.read_at(0, start) == start.size() && std::string_view(start.data(), start.size()) == NpyArray::magic;
}

void read_trace_file(const input::ByteSource& source, const TraceFileSink& sink) {
    is_npy(source) ? read_npy(source, sink) : read_text(source, sink);
}

}  // namespace wayfolio::document
