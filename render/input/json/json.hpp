#pragma once
#include "input/problem.hpp"

#include <cstdint>
#include <deque>
#include <memory>
#include <memory_resource>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::input {

enum class JsonKind { Null, Boolean, Number, String, Array, Object };

/// One JSON value with its place in the file. Views and spans point into the bytes it was read from, or into the Json that owns it.
struct Value {
    JsonKind kind = JsonKind::Null;
    bool boolean = false;
    bool refused = false;                        ///< a number that the reading noted as a fault: told once, it counts as absent
    std::uint32_t line = 0, column = 0;          ///< where the value begins, from 1; column in bytes
    std::uint32_t key_line = 0, key_column = 0;  ///< where its key begins, for a member of an object
    double number = 0;
    std::string_view text;         ///< a string decoded, or a number's literal as written
    std::string_view key;          ///< decoded, for a member of an object
    std::span<const Value> items;  ///< elements of an array or members of an object, in the file's order

    [[nodiscard]] bool is(JsonKind wanted) const { return kind == wanted; }
    /// The member called `name`, or nullptr.
    [[nodiscard]] const Value* member(std::string_view name) const;
};

/// Whether two values that hold no others are the same. How a number is spelt says nothing.
bool same_plain(const Value& a, const Value& b);

/// JSON Pointer (RFC 6901) of a value of the tree under `root`.
std::string pointer_of(const Value& root, const Value& wanted);

/// The value that a JSON Pointer names, or nullptr.
const Value* value_at(const Value& root, std::string_view pointer);

/// `pointer` with one more step, escaped by RFC 6901.
std::string pointer_step(std::string pointer, std::string_view key);

/// What a person would call the value, short and printable: `"inches"`, `12.5`, `an array of 3`.
std::string describe(const Value& value);

/// The value as JSON in one line, in the order of the file; 7.10 is 7.1 there.
std::string compact(const Value& value);

/// Text in double quotes, cut after 60 bytes, control characters made visible.
std::string quoted(std::string_view text);

/// What one file may hold. Beyond these it is refused, so that a faulty or hostile file costs neither memory nor time.
struct JsonLimits {
    static constexpr std::size_t depth = 64;
    static constexpr std::size_t values = 3'000'000;
    static constexpr std::size_t members = 10'000;     ///< of one object
    static constexpr std::size_t number_letters = 40;  ///< of one number
    static constexpr double number_size = 1e20;        ///< of one number: the squares of squares of such can still be added
    static constexpr double least_size = 1e-30;        ///< of one number that is not 0: quotients of such can still be squared
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
