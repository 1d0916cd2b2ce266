#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace wayfolio::document {

/// Two columns of numbers in NumPy's file format .npy, versions 1 to 3 (NumPy Enhancement Proposal 1 and the documentation of
/// numpy.lib.format [from memory]): a magic word, a header that is a Python dictionary, and the numbers, row by row or column by column,
/// in either order of bytes. It looks at the bytes that it was opened on, which must outlive it, and copies none.
class NpyArray {
public:
    struct Fault {
        std::string found, expected, hint;
    };
    static constexpr std::string_view magic = "\x93NUMPY";

    /// What a header says is held against the bytes that are there.
    static std::variant<NpyArray, Fault> open(std::string_view bytes);

    [[nodiscard]] std::size_t rows() const { return rows_; }
    /// @param column 0 or 1
    [[nodiscard]] double at(std::size_t row, std::size_t column) const;

private:
    struct Form {
        std::size_t number_size = 8;  ///< 4 or 8
        bool big_endian = false, column_by_column = false;
    };
    NpyArray(std::string_view numbers, std::size_t rows, Form form) : numbers_(numbers), rows_(rows), form_(form) {}

    std::string_view numbers_;
    std::size_t rows_;
    Form form_;
};

}  // namespace wayfolio::document
