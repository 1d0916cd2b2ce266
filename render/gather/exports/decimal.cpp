#include "gather/exports/decimal.hpp"

#include "units/number_text.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace wayfolio::gather {
namespace {

constexpr std::array<double, 23> powers{1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                        1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/// The digits with `zeros` more behind them, or nothing where they become too many.
std::optional<std::int64_t> extended(std::int64_t digits, int zeros) {
    for (; zeros > 0 && digits != 0; --zeros)
        if (__builtin_mul_overflow(digits, std::int64_t{10}, &digits)) return std::nullopt;
    return digits;
}

}  // namespace

std::string Decimal::text() const {
    std::string written;
    append_to(written);
    return written;
}

void Decimal::append_to(std::string& into) const {
    constexpr int longest = 40;
    if (digits == 0 && exponent >= 0) {
        into += '0';
        return;
    }
    const bool plain = -exponent <= longest - 2;  // written with its decimals, not with an exponent
    const int decimals = plain && exponent < 0 ? -exponent : 0;
    std::array<char, longest + 24> letters;
    char *const end = letters.data() + letters.size(), *at = end;
    auto left = static_cast<std::uint64_t>(digits < 0 ? -digits : digits);
    for (int place = 0; left != 0 || place <= decimals; ++place, left /= 10) {
        if (place == decimals && place > 0) *--at = '.';
        *--at = static_cast<char>('0' + left % 10);
    }
    if (digits < 0) *--at = '-';
    into.append(at, static_cast<std::size_t>(end - at));
    const auto written = static_cast<int>(end - at) - (digits < 0 ? 1 : 0);
    if (!plain || exponent > longest - written)
        into += "e" + std::to_string(exponent);
    else if (exponent > 0)
        into.append(static_cast<std::size_t>(exponent), '0');
}

double Decimal::value() const {
    // Both are held exactly by a double, so that their quotient or product is rounded once [Clinger 1990].
    constexpr std::int64_t exact = std::int64_t{1} << 53;
    const auto power = static_cast<std::size_t>(exponent < 0 ? -exponent : exponent);
    if (digits > -exact && digits < exact && power < powers.size()) {
        const auto whole = static_cast<double>(digits);
        return (exponent < 0 ? whole / powers[power] : whole * powers[power]) + 0.0;
    }
    const std::string written = std::to_string(digits) + "e" + std::to_string(exponent);
    double value = 0;
    std::from_chars(written.data(), written.data() + written.size(), value);
    return value;
}

bool Decimal::operator==(const Decimal& other) const {
    if (exponent == other.exponent) return digits == other.digits;
    const Decimal& finer = exponent < other.exponent ? *this : other;
    const Decimal& coarser = exponent < other.exponent ? other : *this;
    const auto same = extended(coarser.digits, coarser.exponent - finer.exponent);
    return same && *same == finer.digits;
}

Decimal decimal_of(double value) {
    const std::string written = units::shortest(value + 0.0);
    Decimal read;
    bool after_mark = false;
    std::size_t at = written.starts_with('-') ? 1 : 0;
    for (; at < written.size() && written[at] != 'e'; ++at) {
        after_mark = after_mark || written[at] == '.';
        if (written[at] == '.') continue;
        read.digits = read.digits * 10 + (written[at] - '0');
        if (after_mark) --read.exponent;
    }
    if (at < written.size()) {
        int power = 0;
        std::from_chars(written.data() + at + (written[at + 1] == '+' ? 2 : 1), written.data() + written.size(), power);
        read.exponent += power;
    }
    return written.starts_with('-') ? read.negated() : read;
}

Decimal difference(const Decimal& a, const Decimal& b) {
    const int exponent = std::min(a.exponent, b.exponent);
    const auto first = extended(a.digits, a.exponent - exponent), second = extended(b.digits, b.exponent - exponent);
    std::int64_t digits = 0;
    if (first && second && !__builtin_sub_overflow(*first, *second, &digits)) return {digits, exponent};
    return decimal_of(a.value() - b.value());
}

Decimal product(const Decimal& number, double factor) {
    const double power = std::log10(factor);
    if (power == std::round(power) && std::abs(power) < 20) {
        Decimal moved{number.digits, number.exponent + static_cast<int>(power)};
        if (moved.exponent <= 0) return moved;
        if (const auto digits = extended(moved.digits, moved.exponent)) return {*digits, 0};
        return moved;
    }
    std::int64_t digits = 0;
    if (factor == std::round(factor) && std::abs(factor) < 1e15 &&
        !__builtin_mul_overflow(number.digits, static_cast<std::int64_t>(factor), &digits))
        return {digits, number.exponent};
    return decimal_of(number.value() * factor);
}

}  // namespace wayfolio::gather
