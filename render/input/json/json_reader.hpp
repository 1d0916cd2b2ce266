#pragma once
#include "input/problem.hpp"
#include "input/json/value.hpp"

#include <deque>
#include <memory>
#include <memory_resource>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::input {

/// What one file may hold. Beyond these it is refused, so that a faulty or hostile file costs neither memory nor time.
struct JsonLimits {
    static constexpr std::size_t depth = 64;
    static constexpr std::size_t values = 3'000'000;
    static constexpr std::size_t members = 10'000;     ///< of one object
    static constexpr std::size_t number_letters = 40;  ///< of one number
    static constexpr double number_size = 1e20;        ///< of one number: the squares of squares of such can still be added
};

/// A JSON text as a tree of located values, and the faults that did not stop the reading (doubled keys, numbers out of bounds).
struct Json {
    Value root;
    std::vector<Problem> problems;
    std::deque<std::string> decoded;  ///< strings that were written with escapes; a deque, for its elements never move
    /// Where the values stand, container by container: a long trace is hundreds of thousands of them, given back at once.
    std::unique_ptr<std::pmr::monotonic_buffer_resource> values = std::make_unique<std::pmr::monotonic_buffer_resource>();
};

/// Reads strict JSON (RFC 8259): UTF-8 (a byte-order mark is passed over), one value, nothing after it.
/// @param bytes must outlive the result: its views point into them
/// @param file the name used in messages
/// @throws InputRejected at the first fault of syntax or beyond a limit, with the faults found before it
Json read_json(std::string_view bytes, const std::string& file);

}  // namespace wayfolio::input
