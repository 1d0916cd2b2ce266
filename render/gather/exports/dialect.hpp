#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// How the letters of a text are written down. By the mark is: as a byte-order mark says, else UTF-8.
enum class Encoding { ByMark, Utf8, Utf16, Latin1 };

/// How an export writes rows, cells and numbers. Nothing of it is guessed while readings are gathered.
struct Dialect {
    static constexpr char blanks = ' ';  ///< as the delimiter: a run of blanks and tabs
    static constexpr char none = '\0';

    Encoding encoding = Encoding::ByMark;
    char delimiter = ',';
    char quote = '"';     ///< or none: quotation marks are letters like any other
    std::string comment;  ///< lines that begin with it are passed over; "" for none
    char decimal_mark = '.';
    std::string thousands_mark;        ///< between groups of three digits; "" for none
    std::vector<std::string> missing;  ///< words that stand for a missing reading, besides an empty cell
};

/// A text without blanks around it, those of spreadsheets among them.
std::string_view without_blanks(std::string_view text);

/// Whether two texts are the same: most of other texts have another size or another first letter, and most that are the same are short.
inline bool same_text(std::string_view a, std::string_view b) {
    return a.size() == b.size() && (a.empty() || (a[0] == b[0] && (a.size() == 1 || a == b)));
}

/// A cell with its place: line and column (in bytes of UTF-8) of a text, row and column of a sheet, each from 1.
struct Cell {
    std::string_view text;
    std::uint32_t line = 0, column = 0;
    std::optional<double> number{};  ///< as a sheet holds it; `text` is then its shortest text

    /// The text without blanks around it.
    [[nodiscard]] [[gnu::always_inline]] std::string_view trimmed() const {  // asked of each cell several times
        const auto is_plain = [](char letter) { return letter > ' ' && letter < '\x7F'; };  // nearly every cell begins and ends so
        return !text.empty() && is_plain(text.front()) && is_plain(text.back()) ? text : without_blanks(text);
    }
    [[nodiscard]] bool empty() const { return trimmed().empty(); }
};

/// The cells of one row; they hold until the next row is read.
struct Row {
    std::uint32_t line = 0;
    std::span<const Cell> cells;

    /// Whether nothing stands in it.
    [[nodiscard]] bool empty() const;
};

}  // namespace wayfolio::gather
