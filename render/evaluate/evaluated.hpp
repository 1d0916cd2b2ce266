#pragma once
#include <string>
#include <variant>

namespace wayfolio::evaluate {

/// Why a value could not be had. A result with a reason: never NaN, never 0.
struct NotEvaluated {
    std::string reason;
};

template <class T>
using Evaluated = std::variant<T, NotEvaluated>;

template <class T>
const T* value_of(const Evaluated<T>& evaluated) { return std::get_if<T>(&evaluated); }

}  // namespace wayfolio::evaluate
