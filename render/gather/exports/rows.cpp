#include "gather/exports/rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

namespace wayfolio::gather {

namespace {

bool is_blank(char letter) { return letter == ' ' || letter == '\t'; }

const char* past_blanks(const char* at, const char* end) { return std::find_if_not(at, end, is_blank); }

}  // namespace

RowCutter::RowCutter(const Dialect& dialect, ExportFaults& faults, RowSink sink)
    : dialect_(dialect), faults_(faults), sink_(std::move(sink)) {
    for (const char letter : {'\n', '\r', dialect.delimiter}) stops_[static_cast<unsigned char>(letter)] = true;
    if (dialect.delimiter == Dialect::blanks) stops_[static_cast<unsigned char>('\t')] = true;
    if (dialect.quote != Dialect::none) stops_[static_cast<unsigned char>(dialect.quote)] = true;
}

void RowCutter::add(std::string_view piece) {
    if (stopped_) return;
    if (begun_.empty()) {
        const std::string_view rest = rows_of(piece, /*last=*/false);
        begun_.assign(rest);
    } else {
        begun_ += piece;
        const std::size_t rest = rows_of(begun_, /*last=*/false).size();
        begun_.erase(0, begun_.size() - rest);
    }
    if (!stopped_ && begun_.size() > longest_row) too_long();
}

void RowCutter::finish() {
    if (stopped_) return;
    rows_of(begun_, /*last=*/true);
    begun_.clear();
}

/// Cuts all whole rows and gives what is left. RFC 4180 2.2: the last row may end without a line end.
std::string_view RowCutter::rows_of(std::string_view text, bool last) {
    const char *at = text.data(), *const end = at + text.size();
    while (at != end && !stopped_) {
        if (cut_plain_row(at, end)) {
            sink_({line_, std::span(cells_).first(used_)});
            ++line_;
            continue;
        }
        const char* const start = at;
        used_ = 0;
        joined_.clear();
        lines_ = 0;
        line_start_ = at;
        const Ends ends = cut_row(at, end, last);
        if (ends == Ends::Unfinished) return {start, static_cast<std::size_t>(end - start)};
        if (ends == Ends::Row) sink_({line_, std::span(cells_).first(used_)});
        line_ += lines_;
    }
    return {};
}

/// Nearly every row: all there, its cells without quotes, no more of them than rows before it had. Any other is left, untouched, to
/// cut_row().
bool RowCutter::cut_plain_row(const char*& at, const char* end) {
    if (dialect_.delimiter == Dialect::blanks || begins_comment(at, end)) return false;
    const char* const line = at;
    Cell *cell = cells_.data(), *const no_room = cell + cells_.size();
    for (const char* start = at; cell != no_room; ++cell) {
        const char* stop = start;
        while (stop != end && !stops_[static_cast<unsigned char>(*stop)]) ++stop;
        if (stop == end || (*stop == '\r' && stop + 1 == end) || *stop == dialect_.quote) return false;
        cell->text = {start, static_cast<std::size_t>(stop - start)};
        cell->line = line_;
        cell->column = static_cast<std::uint32_t>(start - line) + 1;
        start = stop + 1;
        if (*stop == dialect_.delimiter) continue;
        const bool two_letters = *stop == '\r' && *start == '\n';
        at = two_letters ? start + 1 : start;
        used_ = static_cast<std::size_t>(cell - cells_.data()) + 1;
        return true;
    }
    return false;
}

bool RowCutter::begins_comment(const char* at, const char* end) const {
    if (dialect_.comment.empty()) return false;
    const char* const word = past_blanks(at, end);
    const std::string_view rest(word, static_cast<std::size_t>(end - word));
    return rest.size() < dialect_.comment.size() || rest.starts_with(dialect_.comment);
}

/// One row, a comment (which is no row), or what has a fault: then the rest of its line is passed over.
RowCutter::Ends RowCutter::cut_row(const char*& at, const char* end, bool last) {
    if (!dialect_.comment.empty()) {
        const char* const word = past_blanks(at, end);
        const std::string_view rest(word, static_cast<std::size_t>(end - word));
        if (!last && rest.size() < dialect_.comment.size()) return Ends::Unfinished;
        if (rest.starts_with(dialect_.comment)) return cut_line(at, end, last) == Ends::Unfinished ? Ends::Unfinished : Ends::Here;
    }
    while (true) {
        if (dialect_.delimiter == Dialect::blanks) at = past_blanks(at, end);
        const bool quoted = at != end && dialect_.quote != Dialect::none && *at == dialect_.quote;
        const Ends ends = quoted ? quoted_cell(at, end, last) : plain_cell(at, end, last);
        if (ends == Ends::Fault) {
            // A row that is not all there yet is cut again, and would be told again.
            if (cut_line(at, end, last) == Ends::Unfinished) return Ends::Unfinished;
            faults_.add(fault_.at, fault_.found, fault_.expected, fault_.hint);
        }
        if (ends != Ends::Cell) return ends;
    }
}

/// The rest of a line, whatever stands in it.
RowCutter::Ends RowCutter::cut_line(const char*& at, const char* end, bool last) {
    at = std::find_if(at, end, [](char letter) { return letter == '\n' || letter == '\r'; });
    return line_end(at, end, last);
}

bool RowCutter::ends_cell(char letter) const {
    if (letter == '\n' || letter == '\r') return true;
    return dialect_.delimiter == Dialect::blanks ? is_blank(letter) : letter == dialect_.delimiter;
}

void RowCutter::put(std::string_view text, std::uint32_t line, const char* at) {
    put_at(text, line, static_cast<std::uint32_t>(at - line_start_) + 1);
}

/// Cells of rows before are written over: there are millions of rows.
void RowCutter::put_at(std::string_view text, std::uint32_t line, std::uint32_t column) {
    if (used_ == cells_.size()) cells_.emplace_back();
    cells_[used_++] = {text, line, column};
}

Spot RowCutter::spot_at(const char* at) const { return {line_ + lines_, static_cast<std::uint32_t>(at - line_start_) + 1}; }

void RowCutter::new_line(const char* at) {
    ++lines_;
    line_start_ = at;
}

/// At a line end or at the end of the text. RFC 4180 2.1 asks for CRLF; LF and CR alone are taken too.
RowCutter::Ends RowCutter::line_end(const char*& at, const char* end, bool last) {
    if (at == end) return last ? Ends::Row : Ends::Unfinished;
    if (*at == '\r' && at + 1 == end && !last) return Ends::Unfinished;
    at += *at == '\r' && at + 1 != end && at[1] == '\n' ? 2 : 1;
    new_line(at);
    return Ends::Row;
}

/// RFC 4180 2.5: a field without quotes holds none. 2.4: blanks belong to the field.
RowCutter::Ends RowCutter::plain_cell(const char*& at, const char* end, bool last) {
    const char* const start = at;
    while (at != end && !stops_[static_cast<unsigned char>(*at)]) ++at;
    if (at == end && !last) return Ends::Unfinished;
    if (at != end && !ends_cell(*at)) {
        fault_ = {spot_at(at), "a quotation mark inside a cell without quotes", "cells in quotes as a whole",
                  R"(say "quote": "none" where quotation marks are letters like any other)"};
        return Ends::Fault;
    }
    // Blanks at the end of a line delimit nothing.
    const bool nothing = dialect_.delimiter == Dialect::blanks && start == at;
    if (!nothing) put({start, static_cast<std::size_t>(at - start)}, line_ + lines_, start);
    if (at == end || *at == '\n' || *at == '\r') return line_end(at, end, last);
    ++at;
    return Ends::Cell;
}

/// RFC 4180 2.6 and 2.7: delimiters and line ends may stand in quotes, and a quote there is doubled.
RowCutter::Ends RowCutter::quoted_cell(const char*& at, const char* end, bool last) {
    const char *const opening = at, *const opening_line = line_start_;
    const std::uint32_t line = line_ + lines_;
    std::string* joined = nullptr;
    const char* start = ++at;
    while (true) {
        at = std::find_if(at, end, [&](char letter) { return letter == dialect_.quote || letter == '\n' || letter == '\r'; });
        if (at == end && !last) return Ends::Unfinished;
        if (at == end) {
            fault_ = {{line, static_cast<std::uint32_t>(opening - opening_line) + 1},
                      "a cell in quotes that nothing closes",
                      "a closing quotation mark",
                      {}};
            return Ends::Fault;
        }
        if (*at != dialect_.quote) {
            if (line_end(at, end, last) == Ends::Unfinished) return Ends::Unfinished;
            continue;
        }
        if (at + 1 == end && !last) return Ends::Unfinished;
        if (at + 1 == end || at[1] != dialect_.quote) break;
        if (joined == nullptr) joined = &joined_.emplace_back();
        joined->append(start, static_cast<std::size_t>(at - start) + 1);
        at += 2;
        start = at;
    }
    std::string_view text(start, static_cast<std::size_t>(at - start));
    if (joined != nullptr) text = joined->append(text);
    put_at(text, line, static_cast<std::uint32_t>(opening - opening_line) + 1);
    ++at;
    return after_quoted(at, end, last);
}

RowCutter::Ends RowCutter::after_quoted(const char*& at, const char* end, bool last) {
    if (at == end || *at == '\n' || *at == '\r') return line_end(at, end, last);
    if (ends_cell(*at)) {
        ++at;
        return Ends::Cell;
    }
    fault_ = {spot_at(at), "text after a closing quotation mark", "a delimiter or the end of the line there",
              "a quotation mark inside a cell in quotes is doubled"};
    return Ends::Fault;
}

void RowCutter::too_long() {
    faults_.add(Spot{line_, 1}, fmt::format("a row of more than {} bytes", longest_row), "rows that end",
                "a quotation mark that nothing closes, or a file that is no text?");
    stopped_ = true;
    begun_.clear();
}

Spot RowCutter::spot_of(std::string_view piece, std::size_t place) const {
    Spot spot{line_, 1};
    for (const std::string_view text : {std::string_view(begun_), piece.substr(0, place)})
        for (const char letter : text) {
            if (letter == '\n')
                spot = {spot.line + 1, 1};
            else
                ++spot.column;
        }
    return spot;
}

}  // namespace wayfolio::gather
