#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>

namespace wayfolio::gather {

/// A number as somebody wrote it down: 1.50 keeps its two decimals, and 250.0014 - 250 is 0.0014 and nothing else. Its size is at most
/// that of 18 digits; what has more is rounded to the nearest double first.
struct Decimal {
    std::int64_t digits = 0;
    int exponent = 0;  ///< the number is digits x 10^exponent

    /// As JSON has it: 1.50, 0.0014, 1500. No exponent, unless the number is longer than 40 letters without.
    [[nodiscard]] std::string text() const;
    /// The same behind what `into` holds.
    void append_to(std::string& into) const;
    /// The nearest double; never a negative zero.
    [[nodiscard]] double value() const;
    [[nodiscard]] Decimal negated() const { return {-digits, exponent}; }
    /// Equal numbers compare equal however many decimals they were written with.
    bool operator==(const Decimal& other) const;
};

/// The number of a double, by its shortest text.
Decimal decimal_of(double value);

/// The difference, exact where 18 digits hold it, else that of the doubles.
Decimal difference(const Decimal& a, const Decimal& b);

/// The product, exact where `factor` is a whole number or a power of ten and 18 digits hold it, else that of the doubles.
Decimal product(const Decimal& number, double factor);

}  // namespace wayfolio::gather
