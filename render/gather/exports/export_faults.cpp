#include "gather/exports/export_faults.hpp"

#include "input/json/json.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::gather {
namespace {

bool is_space(char letter) { return letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r'; }

}  // namespace

std::string_view without_blanks(std::string_view rest) {
    constexpr std::string_view no_break = "\xC2\xA0";  // spreadsheets put it between digits, and around them
    for (bool more = true; more;) {
        more = false;
        if (!rest.empty() && is_space(rest.front())) rest.remove_prefix(1), more = true;
        if (!rest.empty() && is_space(rest.back())) rest.remove_suffix(1), more = true;
        if (rest.starts_with(no_break)) rest.remove_prefix(no_break.size()), more = true;
        if (rest.ends_with(no_break)) rest.remove_suffix(no_break.size()), more = true;
    }
    return rest;
}

bool Row::empty() const { return std::ranges::all_of(cells, &Cell::empty); }

std::string cell_name(Spot at) {
    std::string letters;
    for (std::uint32_t column = at.column; column > 0; column = (column - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
    return letters + std::to_string(at.line);
}

std::string shown(const Cell& cell) { return cell.empty() ? "an empty cell" : input::quoted(cell.trimmed()); }

void ExportFaults::add(Spot at, std::string found, std::string expected, std::string hint, std::string sort) {
    Sort& same = sorts_[sort.empty() ? expected : sort];
    if (++same.count > told) return;
    same.last = problems_.size();
    input::Place place{at.line, at.column, {}};
    if (!sheet_.empty()) place = {0, 0, sheet_ + (at.line == 0 ? "" : "!" + cell_name(at))};
    problems_.push_back({file_, std::move(place), std::move(found), std::move(expected), std::move(hint)});
}

void ExportFaults::add(const Cell& at, std::string found, std::string expected, std::string hint, std::string sort) {
    add(Spot{at.line, at.column}, std::move(found), std::move(expected), std::move(hint), std::move(sort));
}

std::vector<input::Problem> ExportFaults::problems() const {
    std::vector<input::Problem> all = problems_;
    for (const auto& [name, sort] : sorts_) {
        if (sort.count <= told) continue;
        std::string& hint = all[sort.last].hint;
        hint += fmt::format("{}and {} more like it in this file", hint.empty() ? "" : "; ", sort.count - told);
    }
    return all;
}

std::string ExportFaults::place_words(Spot at) const {
    if (sheet_.empty()) return fmt::format("line {} of {}", at.line, file_);
    return fmt::format("cell {}!{} of {}", sheet_, cell_name(at), file_);
}

}  // namespace wayfolio::gather
