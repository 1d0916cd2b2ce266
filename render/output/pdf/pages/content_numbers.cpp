#include "output/pdf/pages/cairo_pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace wayfolio::output {
namespace {

/// What a byte is, in one look: millions are looked at.
enum class Sign : unsigned char { Other, White, OfNumber };
constexpr std::array<Sign, 256> signs = [] {
    std::array<Sign, 256> all{};
    for (const unsigned char white : std::string_view(" \n\r\t")) all[white] = Sign::White;
    for (const unsigned char digit : std::string_view("-.0123456789")) all[digit] = Sign::OfNumber;
    return all;
}();
constexpr Sign sign_of(char byte) { return signs[static_cast<unsigned char>(byte)]; }

constexpr std::size_t most_operands = 6;  // of a curve, or of a matrix

bool makes_path(std::string_view operation) {
    return operation == "m" || operation == "l" || operation == "c" || operation == "v" || operation == "y" || operation == "re";
}

/// Where a string in brackets ends that begins at `at` (ISO 32000-1 7.3.4.2).
std::size_t end_of_string(std::string_view content, std::size_t at) {
    int depth = 0;
    for (; at < content.size(); ++at) {
        if (content[at] == '\\') ++at;
        else if (content[at] == '(') ++depth;
        else if (content[at] == ')' && --depth == 0) return at + 1;
    }
    return content.size();
}

/// One word: up to white space, or a whole string in brackets.
std::size_t end_of_word(std::string_view content, std::size_t at) {
    while (at < content.size() && sign_of(content[at]) != Sign::White)
        at = content[at] == '(' ? end_of_string(content, at) : at + 1;
    return at;
}

class Shortening {
public:
    explicit Shortening(std::string_view content) : content_(content) { out_.reserve(content.size()); }

    std::string done() {
        for (std::size_t at = 0; at < content_.size();) {
            std::size_t word = at;
            while (word < content_.size() && sign_of(content_[word]) == Sign::White) ++word;
            const std::size_t end = end_of_word(content_, word);
            const std::string_view token = content_.substr(word, end - word);
            const bool number = !token.empty() && std::ranges::all_of(token, [](char byte) { return sign_of(byte) == Sign::OfNumber; });
            if (number && count_ < most_operands) {
                if (count_ == 0) begin_ = at;
                operands_[count_++] = token;
            } else {
                end_operands(token, at);
                out_ += content_.substr(at, end - at);
            }
            at = end;
        }
        end_operands("", content_.size());
        return std::move(out_);
    }

private:
    void end_operands(std::string_view operation, std::size_t end) {
        const std::size_t count = std::exchange(count_, 0);
        if (count == 0) return;
        const bool matrix = operation == "Tm" && count == most_operands, colour = operation == "rg" || operation == "RG";
        if (!matrix && !colour && !makes_path(operation)) {
            out_ += content_.substr(begin_, end - begin_);
            return;
        }
        const auto white_before = static_cast<std::size_t>(operands_[0].data() - content_.data()) - begin_;
        for (std::size_t i = 0; i < count; ++i) {
            out_ += i == 0 ? content_.substr(begin_, white_before) : " ";
            if (matrix && i < 4) out_ += operands_[i];  // size and direction
            else append(operands_[i], colour ? 1000 : 100);
        }
    }

    /// A number on a grid of so many lines a unit, as short as it goes; what is none stays as it is.
    void append(std::string_view number, long long per_unit) {
        double value = 0;
        const auto [end, fault] = std::from_chars(number.data(), number.data() + number.size(), value);
        if (fault != std::errc() || end != number.data() + number.size()) {
            out_ += number;
            return;
        }
        const long long lines = std::llround(value * static_cast<double>(per_unit)), size = std::abs(lines);
        if (lines < 0) out_ += '-';
        put(size / per_unit);
        if (size % per_unit == 0) return;
        const std::size_t point = out_.size();
        put(per_unit + size % per_unit);  // a digit in front keeps zeros
        out_[point] = '.';
        out_.erase(out_.find_last_not_of('0') + 1);
    }
    void put(long long whole) {
        const fmt::format_int digits(whole);
        out_.append(digits.data(), digits.size());
    }

    std::string_view content_;
    std::string out_;
    std::array<std::string_view, most_operands> operands_;
    std::size_t count_ = 0, begin_ = 0;  ///< of the operands that wait: as they stand, from there on
};

}  // namespace

std::string with_short_places(std::string_view content) { return Shortening(content).done(); }

}  // namespace wayfolio::output
