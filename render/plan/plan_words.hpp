#pragma once
#include "plan/plan.hpp"

#include <cstdint>
#include <exception>
#include <optional>
#include <string>
#include <vector>

namespace wayfolio::plan {

/// A plan as somebody asks for it, in words.
struct PlanWords {
    std::vector<std::string> errors;  ///< "EXX", all of one axis
    std::vector<std::string> states;
    std::string travel;               ///< "0:6400"; "": that of the facts
    std::string unit;                 ///< of the travel: "mm", "in", "deg"; "": mm, of rotary axes deg
    std::size_t runs = 5;
    std::size_t targets = 0;          ///< 0: as many as the standard asks for at least
    std::uint64_t seed = 1;
    std::optional<double> feed{}, dwell{};
    bool one_approach_first = false;
};

/// Words of which no plan can be made: what is wrong, in a sentence that names them.
class WordsRefused : public std::exception {
public:
    explicit WordsRefused(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

/// A request without facts. @throws WordsRefused
PlanRequest request_of(const PlanWords& words);

}  // namespace wayfolio::plan
