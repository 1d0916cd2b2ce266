#include "units/number_text.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace wayfolio::units {
namespace {

/// Digits of |value| in fixed notation; to_chars rounds the exact binary value, ties to even.
std::string fixed_digits(double magnitude, int decimals) {
    std::array<char, 400> buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude, std::chars_format::fixed, decimals);
    return {buffer.data(), end.ptr};
}

std::string with_thousands(std::string_view whole) {
    std::string grouped;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        if (i > 0 && (whole.size() - i) % 3 == 0) grouped += thin_space;
        grouped += whole[i];
    }
    return grouped;
}

/// Tens, hundreds ...: rounded once, from the value itself.
double rounded_to_power(double magnitude, int power) {
    const double step = std::pow(10.0, power);
    return std::nearbyint(magnitude / step) * step;
}

}  // namespace

std::string number(double value, int decimals, NumberStyle style) {
    if (!std::isfinite(value)) throw std::logic_error("a number that is not finite reached a page");
    const double magnitude = decimals < 0 ? rounded_to_power(std::abs(value), -decimals) : std::abs(value);
    const std::string digits = fixed_digits(magnitude, decimals < 0 ? 0 : decimals);
    const auto dot = digits.find('.');
    std::string text = with_thousands(std::string_view(digits).substr(0, dot));
    if (dot != std::string::npos) text += style.decimal_mark + digits.substr(dot + 1);
    const bool is_zero = digits.find_first_not_of("0.") == std::string::npos;
    return value < 0 && !is_zero ? std::string(minus_sign) + text : text;
}

int decimals_needed(double value, int most) {
    for (int decimals = 0; decimals < most; ++decimals) {
        const double scaled = value * std::pow(10.0, decimals);
        if (std::abs(scaled - std::round(scaled)) <= 1e-9 * std::abs(scaled) + 1e-12) return decimals;
    }
    return most;
}

int decimals_for_uncertainty(double expanded) {
    if (!(expanded > 0) || !std::isfinite(expanded)) throw std::logic_error("an uncertainty must be a positive number");
    std::array<char, 32> buffer;
    // Scientific notation with one decimal rounds to two significant digits and carries by itself (0.996 -> 1.0e+00).
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), expanded, std::chars_format::scientific, 1);
    const std::string_view text(buffer.data(), end.ptr);
    int exponent = 0;
    const auto e = text.find('e');
    const auto digits = text.substr(text[e + 1] == '+' ? e + 2 : e + 1);
    std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    return 1 - exponent;
}

std::string shortest(double value) {
    std::string text;
    append_shortest(text, value);
    return text;
}

void append_shortest(std::string& out, double value) {
    if (!std::isfinite(value)) throw std::logic_error("a number that is not finite was to be written");
    std::array<char, 32> buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    out.append(buffer.data(), end.ptr);
}

}  // namespace wayfolio::units
