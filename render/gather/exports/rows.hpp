#pragma once
#include "gather/exports/dialect.hpp"
#include "gather/exports/export_faults.hpp"

#include <array>
#include <deque>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// Takes one row after the other.
using RowSink = std::function<void(const Row&)>;

/// Cuts a text that comes in pieces into rows and cells by RFC 4180 (its clauses are named where they are kept), with the dialect's own
/// delimiter and marks. It keeps the row that it is in, never more. Faults of quotes are noted; the row that has one is not handed on.
class RowCutter {
public:
    /// A row of a text may have so many bytes: a quote that nobody closes would swallow the file.
    static constexpr std::size_t longest_row = std::size_t{1} << 20;

    RowCutter(const Dialect& dialect, ExportFaults& faults, RowSink sink);

    /// More of the text, UTF-8.
    void add(std::string_view piece);
    /// The text ends here.
    void finish();
    /// Whether a fault makes the rest unreadable.
    [[nodiscard]] bool stopped() const { return stopped_; }
    /// Where a place in the piece that is to be added next lies.
    [[nodiscard]] Spot spot_of(std::string_view piece, std::size_t place) const;

private:
    enum class Ends { Here, Cell, Row, Unfinished, Fault };

    std::string_view rows_of(std::string_view text, bool last);
    bool cut_plain_row(const char*& at, const char* end);
    [[nodiscard]] bool begins_comment(const char* at, const char* end) const;
    Ends cut_row(const char*& at, const char* end, bool last);
    Ends cut_line(const char*& at, const char* end, bool last);
    Ends quoted_cell(const char*& at, const char* end, bool last);
    Ends after_quoted(const char*& at, const char* end, bool last);
    Ends plain_cell(const char*& at, const char* end, bool last);
    Ends line_end(const char*& at, const char* end, bool last);
    [[nodiscard]] bool ends_cell(char letter) const;
    void put(std::string_view text, std::uint32_t line, const char* at);
    void put_at(std::string_view text, std::uint32_t line, std::uint32_t column);
    [[nodiscard]] Spot spot_at(const char* at) const;
    void new_line(const char* at);
    void too_long();

    const Dialect& dialect_;
    ExportFaults& faults_;
    RowSink sink_;
    std::array<bool, 256> stops_{};  ///< letters that end a cell without quotes, or must not stand in it
    struct {
        Spot at;
        std::string found, expected, hint;
    } fault_;                  ///< of the row being cut
    std::string begun_;        ///< the row that the last piece left unfinished
    std::uint32_t line_ = 1;   ///< of the row being cut
    std::uint32_t lines_ = 0;  ///< that the row being cut has ended already
    const char* line_start_ = nullptr;
    std::vector<Cell> cells_;  ///< the first `used_` are those of the row
    std::size_t used_ = 0;
    std::deque<std::string> joined_;  ///< texts of the row's cells that held doubled quotes
    bool stopped_ = false;
};

}  // namespace wayfolio::gather
