#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace wayfolio::input {

enum class Kind { Null, Boolean, Number, String, Array, Object };

/// One JSON value with its place in the file. Views and spans point into the bytes it was read from, or into the Json that owns it.
struct Value {
    Kind kind = Kind::Null;
    bool boolean = false;
    std::uint32_t line = 0, column = 0;          ///< where the value begins, from 1; column in bytes
    std::uint32_t key_line = 0, key_column = 0;  ///< where its key begins, for a member of an object
    double number = 0;
    std::string_view text;         ///< a string decoded, or a number's literal as written
    std::string_view key;          ///< decoded, for a member of an object
    std::span<const Value> items;  ///< elements of an array or members of an object, in the file's order

    [[nodiscard]] bool is(Kind wanted) const { return kind == wanted; }
    /// The member called `name`, or nullptr.
    [[nodiscard]] const Value* member(std::string_view name) const;
};

/// JSON Pointer (RFC 6901) of a value of the tree under `root`.
std::string pointer_of(const Value& root, const Value& wanted);

/// `pointer` with one more step, escaped by RFC 6901.
std::string pointer_step(std::string pointer, std::string_view key);

/// What a person would call the value, short and printable: `"inches"`, `12.5`, `an array of 3`.
std::string describe(const Value& value);

/// Text in double quotes, cut after 60 bytes, control characters made visible.
std::string quoted(std::string_view text);

}  // namespace wayfolio::input
