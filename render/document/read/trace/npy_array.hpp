#pragma once
#include "input/byte_source.hpp"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

namespace wayfolio::document {

/// Two columns of numbers in NumPy's file format .npy, versions 1 to 3 (NumPy Enhancement Proposal 1 and the documentation of
/// numpy.lib.format [from memory]): a magic word, a header that is a Python dictionary, and the numbers, row by row or column by column,
/// in either order of bytes. Rows are read some at a time.
class NpyArray {
public:
    struct Fault {
        std::string found, expected, hint;
    };
    static constexpr std::string_view magic = "\x93NUMPY";

    /// What a header says is held against the bytes that are there.
    static std::variant<NpyArray, Fault> open(input::ByteSource source);

    [[nodiscard]] std::size_t rows() const { return rows_; }
    struct Row {
        double first, second;
    };
    /// Hands on all rows, in their order.
    void walk(const std::function<void(std::span<const Row>)>& take) const;

private:
    struct Form {
        std::size_t number_size = 8;  ///< 4 or 8
        bool big_endian = false, column_by_column = false;
    };
    NpyArray(input::ByteSource source, std::size_t numbers_at, std::size_t rows, Form form)
        : source_(std::move(source)), numbers_at_(numbers_at), rows_(rows), form_(form) {}

    void read(std::size_t place, std::span<char> into) const;
    [[nodiscard]] double number(const char* at) const;

    input::ByteSource source_;
    std::size_t numbers_at_, rows_;
    Form form_;
};

}  // namespace wayfolio::document
