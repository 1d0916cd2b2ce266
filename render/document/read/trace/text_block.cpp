#include "document/read/trace/text_block.hpp"

#include "document/read/trace/short_decimal.hpp"
#include "input/encoding.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstring>

namespace wayfolio::document {
namespace {

/// What is read behind a block for the end of its last line.
constexpr std::size_t usual_rest = 256;

bool is_blank(char letter) { return letter == ' ' || letter == '\t' || letter == '\r'; }

const char* behind_blanks(const char* at) {
    while (is_blank(*at)) ++at;
    return at;
}

/// Blanks, one comma or semicolon among them, or both.
const char* behind_separator(const char* at) {
    at = behind_blanks(at);
    return *at == ',' || *at == ';' ? behind_blanks(at + 1) : at;
}

bool begins_number(char first) { return (first >= '0' && first <= '9') || first == '-' || first == '.' || first == '+'; }

/// A number in whatever way it may be written.
/// @param end of the whole text: no number goes beyond its line
ReadNumber read_any_number(const char* at, const char* end) {
    if (!begins_number(*at)) return {};
    double value = 0;
    const auto [behind, failure] = std::from_chars(at, end, value);
    // "-inf" and "-nan" begin like numbers.
    if (failure != std::errc() || value != value || value - value != 0) return {};
    return {behind, value};
}

[[gnu::always_inline]] inline ReadNumber read_number(const char* at, const char* end) {
    const ReadNumber read = read_short_decimal(at);
    return read.behind != nullptr ? read : read_any_number(at, end);
}

/// std::from_chars does not know a plus sign.
const char* behind_plus(const char* at) { return *at == '+' ? at + 1 : at; }

const char* end_of_line(const char* at, const char* end) {
    return static_cast<const char*>(std::memchr(at, '\n', static_cast<std::size_t>(end - at)));
}

}  // namespace

void TextBlock::read(const input::ByteSource& source, std::size_t from, std::size_t to) {
    first_ = from == 0;
    text_ = own_lines(source, from, to);
    take_apart(first_);
}

void TextBlock::read_as_first() { take_apart(true); }

/// The byte before the block says whether a line begins with it.
std::string_view TextBlock::own_lines(const input::ByteSource& source, std::size_t from, std::size_t to) {
    const std::size_t begin = from == 0 ? 0 : from - 1, size = to - begin;
    std::size_t held = 0;
    const auto read_to = [&](std::size_t wanted) {
        if (bytes_.size() <= wanted) bytes_.resize(wanted + 1);  // and a mark at the end of the last line
        held += source.read_at(begin + held, std::span(bytes_).subspan(held, wanted - held));
        return held == wanted;
    };
    bool more = read_to(size + usual_rest);
    const auto mark_from = [&](std::size_t place) {
        const char* const found = place < held ? end_of_line(bytes_.data() + place, bytes_.data() + held) : nullptr;
        return found != nullptr ? static_cast<std::size_t>(found - bytes_.data()) : held;
    };
    const std::size_t first = from == 0 ? 0 : mark_from(0) + 1;
    if (first >= std::min(size, held)) return {};
    std::size_t end = mark_from(size - 1);
    while (end == held && more && held - size <= longest_line) {
        more = read_to(held + longest_line / 4);
        end = mark_from(end);
    }
    bytes_[end] = '\n';
    return {bytes_.data() + first, end + 1 - first};
}

[[gnu::always_inline]] inline const char* TextBlock::end_line(const char* line, const char* at) {
    if (static_cast<std::size_t>(at - line) > longest_line) end_with_long_line();
    return at + 1;
}

/// Looks at each letter once: that a line ends is found where nothing else can stand.
/// @returns what comes behind the line
[[gnu::always_inline]] inline const char* TextBlock::read_line(const char* line, bool may_be_header) {
    ++lines_;
    const char *at = behind_blanks(line), *const end = text_.data() + text_.size();
    if (*at == '\n') return end_line(line, at);
    if (may_be_header && !begins_number(*at)) {
        has_header_ = true;
        return end_line(line, end_of_line(at, end));
    }
    ++sample_lines_;
    at = behind_plus(at);
    const auto [position_end, position] = read_number(at, end);
    if (position_end == nullptr) return wrong(line, at, "a position: a number with a decimal point");
    at = behind_separator(position_end);
    const bool separated = at != position_end;
    if (separated) at = behind_plus(at);
    const auto [value_end, value] = separated ? read_number(at, end) : ReadNumber{};
    if (value_end == nullptr) return wrong(line, at, "a value after the position: a number with a decimal point");
    at = behind_blanks(value_end);
    if (*at != '\n') return wrong(line, at, "two columns, position and value, with decimal points");
    samples_.emplace_back(position, value, lines_);
    return end_line(line, at);
}

void TextBlock::take_apart(bool may_have_header) {
    samples_.clear();
    faults_.clear();
    lines_ = sample_lines_ = 0;
    has_header_ = ends_reading_ = false;
    const char *at = text_.data(), *const end = at + text_.size();
    if (first_ && input::looks_like_utf16(text_)) return end_with({1, 1, "UTF-16", "UTF-8"});
    if (first_ && text_.starts_with(input::utf8_byte_order_mark)) at += input::utf8_byte_order_mark.size();
    while (at != end && !ends_reading_) at = read_line(at, may_have_header && !has_header_ && sample_lines_ == 0);
}

void TextBlock::end_with_long_line() {
    end_with({lines_, 1, fmt::format("a line of more than {} bytes", longest_line), "two columns, position and value"});
}

const char* TextBlock::wrong(const char* line, const char* at, std::string_view expected) {
    const char* const end = end_of_line(at, text_.data() + text_.size());
    if (static_cast<std::size_t>(end - line) <= longest_line)
        faults_.push_back({{lines_, static_cast<std::size_t>(at - line) + 1, input::quoted({at, end}), std::string(expected)},
                           samples_.size()});
    return end_line(line, end);
}

void TextBlock::end_with(TraceFault fault) {
    faults_.push_back({std::move(fault), samples_.size()});
    ends_reading_ = true;
}

void TextBlock::hand_on(const TraceFileSink& sink, std::size_t lines_before) const {
    const std::span<const WrittenSample> all(samples_);
    std::size_t done = 0;
    const auto take_to = [&](std::size_t end) {
        if (end > done) sink.take(all.subspan(done, end - done), lines_before);
        done = end;
    };
    for (const auto& [fault, samples_before] : faults_) {
        take_to(samples_before);
        TraceFault told = fault;
        told.line += lines_before;
        sink.fault(std::move(told));
    }
    take_to(all.size());
}

}  // namespace wayfolio::document
