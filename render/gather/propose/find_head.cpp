#include "gather/propose/looked_at.hpp"
#include "gather/shapes/head.hpp"

#include <algorithm>

namespace wayfolio::gather {
namespace {

std::size_t filled_in(const Cells& cells) {
    return cells.size() - static_cast<std::size_t>(std::ranges::count_if(cells, &std::string::empty));
}

bool is_words(const Cells& cells) { return filled_in(cells) > 1 && numbers_in(cells) == 0; }

/// Whether words name every column of a row.
bool names_all(const Cells& words, const Cells& row) {
    return is_words(words) && words.size() >= row.size() && filled_in(words) >= filled_in(row);
}

/// The first row in which numbers stand in columns.
std::size_t first_row_of_numbers(const std::vector<LineCells>& lines) {
    const auto is_one = [&](std::size_t place) {
        const Cells& row = lines[place].cells;
        if (!is_row_of_numbers(lines[place])) return false;
        if (numbers_in(row) * 2 >= row.size() || place + 1 == lines.size()) return true;
        const Cells& next = lines[place + 1].cells;
        return row.size() == next.size() && numbers_in(next) > 0;
    };
    std::size_t place = 0;
    while (place < lines.size() && !is_one(place)) ++place;
    return place;
}

/// Where lines of a word and its value ("Run 1") stand before a table of numbers: the table's first row. Else `from`.
std::size_t past_told_lines(const std::vector<LineCells>& lines, std::size_t from) {
    if (from >= lines.size() || looks_like_number(lines[from].cells.front())) return from;
    if (from > 0 && filled_in(lines[from].cells) > 2 && names_all(lines[from - 1].cells, lines[from].cells)) return from;
    constexpr std::size_t farthest = 30;
    for (std::size_t place = from + 1; place < std::min(lines.size(), from + farthest); ++place) {
        const Cells& row = lines[place].cells;
        if (filled_in(row) > 1 && numbers_in(row) * 2 > filled_in(row) && names_all(lines[place - 1].cells, row)) return place;
    }
    return from;
}

/// Heads may be numbers, as targets or runs: one of their words stands above a number. In a row of readings a word stands above words.
bool are_heads(const Cells& row, const Cells& next) {
    if (numbers_in(next) <= numbers_in(row)) return false;
    for (std::size_t place = 0; place < std::min(row.size(), next.size()); ++place)
        if (!row[place].empty() && !looks_like_number(row[place]) && looks_like_number(next[place])) return true;
    return false;
}

bool is_dash(std::string_view word) { return word == "-" || word == "[-]" || word == "\u2013"; }

bool is_unit(std::string_view word) {
    for (const auto& [open, close] : {std::pair('[', ']'), std::pair('(', ')')})
        if (word.starts_with(open) && word.ends_with(close)) word = word.substr(1, word.size() - 2);
    return is_dash(word) || unit_in_head("x [" + std::string(word) + "]").has_value();
}

bool are_units(const Cells& cells) {
    return std::ranges::all_of(cells, [](const std::string& cell) { return cell.empty() || is_unit(cell); });
}

/// A head of two lines: names over their units, or names over some columns and what tells them apart below.
bool is_upper_line(const Cells& upper, const Cells& lower) {
    if (!is_words(upper) || upper.size() < lower.size()) return false;
    // "Direction | forward" above a name of the first column tells something of all rows.
    const bool told = lower.size() > 2 && filled_in(upper) == 2 && !upper[0].empty() && !upper[1].empty() && !lower[0].empty();
    if (told) return false;
    if (are_units(lower)) return true;
    for (std::size_t place = 0; place < lower.size(); ++place)
        if (lower[place].empty() && !upper[place].empty()) return true;
    return false;
}

/// Both lines of a head as one; a name goes on over the columns behind it that have none.
Cells joined(const Cells& upper, const Cells& lower) {
    const bool units = are_units(lower);
    Cells heads;
    std::string above;
    for (std::size_t place = 0; place < lower.size(); ++place) {
        if (!upper[place].empty()) above = upper[place];
        if (lower[place].empty() || (units && is_dash(lower[place])))
            heads.push_back(upper[place]);
        else if (!units)
            heads.push_back(above.empty() ? lower[place] : above + " " + lower[place]);
        else
            heads.push_back(upper[place] + (lower[place].starts_with('[') || lower[place].starts_with('(') ? " " + lower[place]
                                                                                                           : " [" + lower[place] + "]"));
    }
    return heads;
}

bool any_twice(Cells heads) {
    std::erase(heads, "");
    std::ranges::sort(heads);
    return std::ranges::adjacent_find(heads) != heads.end();
}

/// A word and its value between the blocks of a table; a row of the table has more.
bool is_told(const Cells& cells, const Cells& first_row) {
    const bool word_for_number =
        !cells[0].empty() && !looks_like_number(cells[0]) && (first_row[0].empty() || looks_like_number(first_row[0]));
    return word_for_number && filled_in(cells) <= 2 && filled_in(first_row) > 2;
}

void take_rows(const std::vector<LineCells>& lines, std::size_t place, const Cells& head_row, LookedAt& seen) {
    constexpr std::size_t most_rows = 2000;
    const Cells& first_row = lines[place].cells;
    seen.first_row = lines[place].line;
    for (; place < lines.size(); ++place) {
        const Cells& cells = lines[place].cells;
        if (!head_row.empty() && cells == head_row) seen.several_blocks = true;
        if (cells.size() >= std::max<std::size_t>(seen.heads.size(), 1) && numbers_in(cells) > 0 && !is_told(cells, first_row) &&
            seen.rows.size() < most_rows)
            seen.rows.push_back(cells);
    }
}

/// Columns at the end in which nothing stands: a remark far to the right of a sheet makes all its rows wider.
void leave_out_empty_end(LookedAt& seen) {
    std::size_t width = 0;
    const auto take = [&](const Cells& cells) {
        for (std::size_t place = width; place < cells.size(); ++place)
            if (!cells[place].empty()) width = place + 1;
    };
    take(seen.heads);
    std::ranges::for_each(seen.rows, take);
    if (seen.heads.size() > width) seen.heads.resize(width);
    for (Cells& row : seen.rows)
        if (row.size() > width) row.resize(width);
}

}  // namespace

/// The head is the last row of words above the first row of numbers, if it is as wide.
void find_head(const std::vector<LineCells>& lines, LookedAt& seen) {
    std::size_t place = past_told_lines(lines, first_row_of_numbers(lines));
    if (place == lines.size()) return;
    std::size_t head = place;
    while (head > 0 && std::ranges::all_of(lines[head - 1].cells, &std::string::empty)) --head;
    const Cells none, &row = lines[place].cells, &above = head > 0 ? lines[head - 1].cells : none;
    const bool words_above = is_words(above) && above.size() == row.size();
    Cells head_row;
    if (!(words_above && names_all(above, row)) && head == place && place + 1 < lines.size() && are_heads(row, lines[place + 1].cells)) {
        seen.heads = head_row = row;
        ++place;
    } else if (words_above) {
        seen.heads = head_row = above;
        --head;
        if (head > 0 && is_upper_line(lines[head - 1].cells, head_row)) {
            seen.heads = joined(lines[--head].cells, head_row);
            seen.by_number = true;
        }
    }
    seen.by_number = seen.by_number || seen.heads.empty() || any_twice(seen.heads);
    for (std::size_t line = head > 6 ? head - 6 : 0; line < head; ++line) seen.above.push_back(lines[line].cells);
    take_rows(lines, place, head_row, seen);
    leave_out_empty_end(seen);
}

}  // namespace wayfolio::gather
