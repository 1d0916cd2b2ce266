#pragma once
#include "gather/exports/decimal.hpp"
#include "gather/exports/dialect.hpp"

#include <string>
#include <variant>

namespace wayfolio::gather {

/// Why a cell is no number.
struct NoNumber {
    std::string expected, hint;
};

/// The number in a cell, written as the dialect says: digits with the decimal mark, thousands in groups of three with their mark, a sign
/// (U+2212 too), an exponent. Nothing else: no unit, no second mark.
std::variant<Decimal, NoNumber> number_in(std::string_view text, const Dialect& dialect);

}  // namespace wayfolio::gather
