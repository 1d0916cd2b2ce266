#include "gather/exports/numbers.hpp"
#include "gather/propose/looked_at.hpp"
#include "input/encoding.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::gather {
namespace {

constexpr std::size_t looked_at_bytes = 200'000;

std::string beginning_of(const ExportFile& file) {
    std::string bytes;
    file.read([&](std::string_view piece) {
        if (bytes.size() < looked_at_bytes) bytes += piece.substr(0, looked_at_bytes - bytes.size());
    });
    return bytes;
}

std::vector<LineCells> cells_of(const std::string& bytes, const Dialect& dialect) {
    std::vector<LineCells> lines;
    ExportFaults faults("");
    read_text_rows(export_of_bytes("", bytes), dialect, faults, [&](const Row& row) {
        LineCells line{row.line, {}};
        for (const Cell& cell : row.cells) line.cells.emplace_back(cell.trimmed());
        lines.push_back(std::move(line));
    });
    return lines;
}

/// How well a delimiter cuts: cells of numbers in rows of the most frequent width, whose other cells hold no other delimiter.
std::size_t score(const std::vector<LineCells>& lines, char delimiter) {
    std::vector<std::size_t> widths(64);
    std::size_t sum = 0;
    for (const LineCells& line : lines)
        if (is_row_of_numbers(line)) ++widths[std::min(line.cells.size(), widths.size() - 1)];
    const auto width = static_cast<std::size_t>(std::ranges::max_element(widths) - widths.begin());
    for (const LineCells& line : lines) {
        if (line.cells.size() != width || !is_row_of_numbers(line)) continue;
        for (const std::string& cell : line.cells)
            if (cell.find_first_of(delimiter == ',' ? ";\t" : ";\t ") == std::string::npos) sum += looks_like_number(cell) ? 2 : 1;
    }
    return sum;
}

void choose_delimiter(const std::string& bytes, LookedAt& seen) {
    std::size_t best = 0;
    for (const auto& [word, delimiter] : delimiter_words) {
        Dialect dialect = seen.dialect;
        dialect.delimiter = delimiter;
        if (const std::size_t points = score(cells_of(bytes, dialect), delimiter); points > best) {
            best = points;
            seen.dialect.delimiter = delimiter;
        }
    }
}

void choose_encoding(std::string& bytes, LookedAt& seen) {
    if (input::looks_like_utf16(bytes)) {
        seen.letters = Encoding::Utf16;
        if (!bytes.starts_with("\xFF\xFE") && !bytes.starts_with("\xFE\xFF"))
            seen.dialect.encoding = Encoding::Utf16, seen.encoding_needed = true;
        bytes.resize(bytes.size() / 2 * 2);
        return;
    }
    const std::size_t bad = input::first_invalid_utf8(bytes);
    if (bad == std::string::npos) return;
    if (bytes.size() == looked_at_bytes && bad + 4 > bytes.size())
        bytes.resize(bad);  // only cut off
    else
        seen.dialect.encoding = seen.letters = Encoding::Latin1, seen.encoding_needed = true;
}

void take_encoding(std::string& bytes, Encoding said, LookedAt& seen) {
    seen.dialect.encoding = seen.letters = said;
    seen.encoding_needed = true;
    if (said == Encoding::Utf16) bytes.resize(bytes.size() / 2 * 2);
}

void take_decimal_mark(char said, LookedAt& seen) {
    seen.dialect.decimal_mark = said;
    seen.decimal_open = false;
    if (seen.dialect.thousands_mark == std::string(1, said)) seen.dialect.thousands_mark = "";
}

/// "1,4" is a decimal comma; "1,234" may be either, and "1.234,5" says both marks.
void choose_marks(LookedAt& seen) {
    std::size_t comma = 0, point = 0, either = 0;
    for (const Cells& row : seen.rows)
        for (const std::string& cell : row) {
            if (!looks_like_number(cell)) continue;
            const std::size_t first = cell.find_first_of(",."), last = cell.find_last_of(",.");
            if (first == std::string::npos) continue;
            const bool three =
                cell.size() - last == 4 && first == last && last <= 4 && cell[0] != '0' && cell.find_first_of("eE") == std::string::npos;
            if (first != last && cell[first] != cell[last]) seen.dialect.thousands_mark = std::string(1, cell[first]);
            if (three && cell[last] == ',')
                ++either;
            else
                ++(cell[last] == ',' ? comma : point);
        }
    if (comma > 0 && point == 0) seen.dialect.decimal_mark = ',';
    seen.decimal_open = (comma > 0 && point > 0) || (either > 0 && comma == 0 && point == 0);
    if (either > 0 && point > 0 && comma == 0) seen.dialect.thousands_mark = ",";
}

/// Rows of a sheet end with their last cell that holds something: as in a text, each is as wide as the widest.
void make_all_as_wide(std::vector<LineCells>& lines) {
    std::size_t width = 0;
    for (const LineCells& line : lines) width = std::max(width, line.cells.size());
    for (LineCells& line : lines) line.cells.resize(width);
}

}  // namespace

bool looks_like_number(std::string_view text) {
    const Dialect forms[] = {{}, {.decimal_mark = ','}, {.thousands_mark = ","}, {.decimal_mark = ',', .thousands_mark = "."}};
    return std::ranges::any_of(forms, [&](const Dialect& form) { return number_in(text, form).has_value(); });
}

std::size_t numbers_in(const Cells& cells) { return static_cast<std::size_t>(std::ranges::count_if(cells, looks_like_number)); }

bool is_row_of_numbers(const LineCells& line) { return line.cells.size() > 1 && numbers_in(line.cells) > 0; }

LookedAt look_at(const ExportFile& file, const std::string& sheet, const ReadAs& said) {
    LookedAt seen{.name = file.name, .sheet = sheet, .is_sheet = is_sheet_name(file.name)};
    std::vector<LineCells> lines;
    if (seen.is_sheet) {
        ExportFaults faults(file.path);
        read_rows(file, {seen.dialect, sheet}, faults, [&](const Row& row) {
            LineCells line{row.line, {}};
            for (const Cell& cell : row.cells) line.cells.emplace_back(cell.trimmed());
            if (lines.size() < 2000) lines.push_back(std::move(line));
        });
        if (faults.any()) throw input::InputRejected(faults.problems());
        make_all_as_wide(lines);
    } else {
        std::string bytes = beginning_of(file);
        if (said.encoding) take_encoding(bytes, *said.encoding, seen);
        else choose_encoding(bytes, seen);
        if (bytes.starts_with('#') || bytes.find("\n#") != std::string::npos) seen.dialect.comment = "#";
        if (said.delimiter) seen.dialect.delimiter = *said.delimiter;
        else choose_delimiter(bytes, seen);
        lines = cells_of(bytes, seen.dialect);
    }
    find_head(lines, seen);
    if (seen.rows.empty())
        throw input::InputRejected(
            {{file.path, {}, "no rows of numbers in columns", "an export of readings", "a text with columns, or a spreadsheet"}});
    choose_marks(seen);
    if (said.decimal_mark) take_decimal_mark(*said.decimal_mark, seen);
    return seen;
}

}  // namespace wayfolio::gather
