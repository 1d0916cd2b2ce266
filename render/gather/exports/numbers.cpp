#include "gather/exports/numbers.hpp"

#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace wayfolio::gather {
namespace {

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// A number being read from the front of its text.
class NumberText {
public:
    NumberText(std::string_view text, const Dialect& dialect) : rest_(text), dialect_(dialect) {}

    std::optional<Decimal> read() {
        if (rest_.starts_with(units::minus_sign))
            negative_ = true, rest_.remove_prefix(units::minus_sign.size());
        else if (!rest_.empty() && (rest_[0] == '+' || rest_[0] == '-'))
            negative_ = rest_[0] == '-', rest_.remove_prefix(1);
        if (!whole_part() || !decimals() || any_ == 0 || !exponent() || !rest_.empty()) return std::nullopt;
        // Beyond what any quantity here can be; a reading is kept with an exponent of eight bits.
        if (number_.exponent < -most_letters || number_.exponent > most_letters) return std::nullopt;
        if (too_long_) return rounded();
        return negative_ ? number_.negated() : number_;
    }

private:
    void digit(char letter) {
        ++any_;
        if (std::ssize(letters_) < most_letters) letters_ += letter;
        too_long_ = too_long_ || __builtin_mul_overflow(number_.digits, std::int64_t{10}, &number_.digits) ||
                    __builtin_add_overflow(number_.digits, std::int64_t{letter - '0'}, &number_.digits);
    }
    bool whole_part() {
        std::size_t in_group = 0, groups = 0;
        while (!rest_.empty()) {
            if (is_digit(rest_[0])) {
                digit(rest_[0]);
                ++in_group;
                rest_.remove_prefix(1);
            } else if (!dialect_.thousands_mark.empty() && rest_.starts_with(dialect_.thousands_mark)) {
                if (in_group == 0 || in_group > 3 || (groups > 0 && in_group != 3)) return false;
                ++groups;
                in_group = 0;
                rest_.remove_prefix(dialect_.thousands_mark.size());
            } else
                break;
        }
        return groups == 0 || in_group == 3;
    }
    bool decimals() {
        if (rest_.empty() || rest_[0] != dialect_.decimal_mark) return true;
        rest_.remove_prefix(1);
        letters_ += '.';
        for (; !rest_.empty() && is_digit(rest_[0]); rest_.remove_prefix(1)) {
            digit(rest_[0]);
            --number_.exponent;
        }
        return true;
    }
    bool exponent() {
        if (rest_.empty() || (rest_[0] != 'e' && rest_[0] != 'E')) return true;
        rest_.remove_prefix(1);
        if (rest_.starts_with('+')) rest_.remove_prefix(1);
        int power = 0;
        const auto [end, failure] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), power);
        constexpr int largest = 300;
        if (failure != std::errc() || power > largest || power < -largest) return false;
        rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
        number_.exponent += power;
        power_ = power;
        return true;
    }
    /// More digits than are kept: the nearest double's.
    std::optional<Decimal> rounded() const {
        const std::string text = letters_ + "e" + std::to_string(power_);
        double value = 0;
        const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (failure != std::errc() || std::ssize(letters_) >= most_letters) return std::nullopt;
        return negative_ ? decimal_of(value).negated() : decimal_of(value);
    }

    static constexpr int most_letters = 60;
    std::string_view rest_;
    const Dialect& dialect_;
    bool negative_ = false, too_long_ = false;
    std::size_t any_ = 0;
    int power_ = 0;
    Decimal number_;
    std::string letters_;  ///< digits and mark as written
};

/// Nearly every number: a sign, digits, perhaps a mark and digits, few enough for the digits to be held exactly. False for any other.
/// Both parts are given apart: a Decimal is copied in one piece, which waits in the processor for the two pieces that it was made from.
bool is_plain_number(std::string_view text, char mark, std::int64_t& digits, int& exponent) {
    constexpr std::size_t most_letters = 18;  // as many digits are always held
    if (text.size() > most_letters) return false;
    const char *at = text.data(), *const end = at + text.size();
    const bool negative = at != end && *at == '-';
    if (at != end && (*at == '-' || *at == '+')) ++at;
    const char* const first = at;
    std::int64_t number = 0;
    for (; at != end && is_digit(*at); ++at) number = number * 10 + (*at - '0');
    const bool whole = at != first;
    exponent = 0;
    if (at != end && *at == mark) {
        const char* const decimals = ++at;
        for (; at != end && is_digit(*at); ++at) number = number * 10 + (*at - '0');
        exponent = static_cast<int>(decimals - at);
        if (!whole && at == decimals) return false;
    }
    digits = negative ? -number : number;
    return at == end && at != first;
}

std::string mark_words(char mark) { return mark == ',' ? "a decimal comma" : "a decimal point"; }

/// What most likely was meant by a text that is no number as the dialect writes them.
std::string number_hint(std::string_view text, const Dialect& dialect) {
    const char other = dialect.decimal_mark == '.' ? ',' : '.';
    Dialect turned = dialect;
    turned.decimal_mark = other;
    turned.thousands_mark.clear();
    if (NumberText(text, turned).read())
        return fmt::format(R"({}? say "decimal_mark": "{}" in the mapping if the whole file has it)", mark_words(other), other);
    for (const std::string_view mark : {",", ".", "'", " ", "\u202f", "\u00a0", "\u2019"}) {
        if (mark[0] == dialect.decimal_mark) continue;
        turned = dialect;
        turned.thousands_mark = mark;
        if (NumberText(text, turned).read()) return fmt::format(R"(thousands marks? say "thousands_mark": "{}" in the mapping)", mark);
    }
    const std::size_t number = std::min(text.find_first_of(" abcdfghijklmnopqrstuvwxyz\xC2"), text.size());
    if (number > 0 && number < text.size() && NumberText(text.substr(0, number), dialect).read())
        return "a number alone: its unit belongs into the mapping";
    const bool word = std::ranges::none_of(text, is_digit);
    if (word) return R"(list the word under "missing" in the mapping if it stands for a missing reading)";
    return {};
}

}  // namespace

std::optional<Decimal> number_in(std::string_view text, const Dialect& dialect) {
    std::int64_t digits = 0;
    int exponent = 0;
    if (is_plain_number(text, dialect.decimal_mark, digits, exponent)) return Decimal{digits, exponent};
    return NumberText(text, dialect).read();
}

NoNumber why_no_number(std::string_view text, const Dialect& dialect) {
    return {"a number with " + mark_words(dialect.decimal_mark), number_hint(text, dialect)};
}

}  // namespace wayfolio::gather
