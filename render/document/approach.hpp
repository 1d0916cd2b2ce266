#pragma once
#include <array>
#include <string_view>

namespace wayfolio::document {

/// From which side a target is reached: along rising positions or against them.
enum class Approach { Positive, Negative };

/// Both, in the order in which reports name them.
inline constexpr std::array both_approaches{Approach::Positive, Approach::Negative};

/// The word of the document and of the evaluation output.
constexpr std::string_view word(Approach approach) { return approach == Approach::Positive ? "positive" : "negative"; }

/// One thing for each direction of approach.
template <class T>
struct ByApproach {
    T positive{}, negative{};

    constexpr T& operator[](Approach approach) { return approach == Approach::Positive ? positive : negative; }
    constexpr const T& operator[](Approach approach) const { return approach == Approach::Positive ? positive : negative; }
};

}  // namespace wayfolio::document
