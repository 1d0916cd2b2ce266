#pragma once
#include "gather/exports/decimal.hpp"
#include "gather/exports/dialect.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::gather {

/// The number in a cell, written as the dialect says: digits with the decimal mark, thousands in groups of three with their mark, a sign
/// (U+2212 too), an exponent. Nothing else: no unit, no second mark.
std::optional<Decimal> number_in(std::string_view text, const Dialect& dialect);

/// Why a cell is no number.
struct NoNumber {
    std::string expected, hint;
};
NoNumber why_no_number(std::string_view text, const Dialect& dialect);

}  // namespace wayfolio::gather
