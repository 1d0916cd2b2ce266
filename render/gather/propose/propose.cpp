#include "gather/propose/propose.hpp"

#include "gather/mapping/mapping.hpp"
#include "gather/propose/looked_at.hpp"
#include "gather/propose/roles.hpp"
#include "gather/propose/write_export.hpp"
#include "input/encoding.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace wayfolio::gather {
namespace {

ExportSeen as_seen(const LookedAt& looked, const std::vector<Role>& roles, const std::string& pattern) {
    constexpr std::size_t shown_rows = 3;
    ExportSeen seen{.file = pattern, .sheet = looked.sheet, .several_blocks = looked.several_blocks, .first_row = looked.first_row,
                    .decimal_open = looked.decimal_open};
    if (!looked.is_sheet) seen.read_as = ReadAs{looked.letters, looked.dialect.delimiter, looked.dialect.decimal_mark};
    for (std::size_t place = 0; place < roles.size(); ++place) {
        ColumnSeen column{looked.heads.empty() ? "" : looked.heads[place], words_of(roles[place]), {}};
        for (std::size_t row = 0; row < std::min(shown_rows, looked.rows.size()); ++row)
            if (place < looked.rows[row].size()) column.first.push_back(looked.rows[row][place]);
        seen.columns.push_back(std::move(column));
    }
    return seen;
}

/// "x-*.csv" of names that differ in digits alone.
std::string pattern_of(const std::string& name) {
    std::string pattern;
    for (const char letter : name) {
        const bool digit = letter >= '0' && letter <= '9';
        if (!digit)
            pattern += letter;
        else if (!pattern.ends_with('*'))
            pattern += '*';
    }
    return pattern;
}

/// Exports that are read alike: one, or several whose names differ in digits alone.
struct ExportKind {
    std::string pattern;
    LookedAt seen;
};

/// What was said of an export by its own name, or else of those that it is one of.
ReadAs said_of(const std::string& name, const Given& given) {
    if (const auto own = given.read_as.find(name); own != given.read_as.end()) return own->second;
    const auto fits = [&](const auto& one) { return matches(one.first, name); };
    const auto found = std::ranges::find_if(given.read_as, fits);
    return found == given.read_as.end() ? ReadAs{} : found->second;
}

std::vector<ExportKind> kinds_of(const std::vector<ExportFile>& exports, const Given& given) {
    std::vector<ExportKind> kinds;
    for (const ExportFile& file : exports) {
        const auto chosen = given.sheets.find(file.name);
        const std::vector<std::string> sheets = chosen == given.sheets.end() ? std::vector<std::string>{""} : chosen->second;
        for (const std::string& sheet : sheets) {
            LookedAt seen = look_at(file, sheet, said_of(file.name, given));
            const auto same = std::ranges::find_if(kinds, [&](const ExportKind& kind) {
                return pattern_of(kind.seen.name) == pattern_of(seen.name) && kind.seen.sheet == seen.sheet &&
                       kind.seen.heads == seen.heads && (!seen.by_number || kind.seen.first_row == seen.first_row);
            });
            if (same != kinds.end())
                same->pattern = pattern_of(seen.name);
            else
                kinds.push_back({file.name, std::move(seen)});
        }
    }
    return kinds;
}

/// A name that was given stands for the export that is called so, else for those that it fits.
std::vector<GivenRole> given_for(const ExportKind& kind, const std::vector<ExportKind>& kinds, const std::vector<GivenRole>& given) {
    std::vector<GivenRole> own;
    std::ranges::copy_if(given, std::back_inserter(own), [&](const GivenRole& one) {
        const bool called_so = std::ranges::find(kinds, one.file, &ExportKind::pattern) != kinds.end();
        return one.sheet == kind.seen.sheet && (called_so ? one.file == kind.pattern : matches(one.file, kind.seen.name));
    });
    return own;
}

void require_exports_of(const Given& given, const std::vector<ExportFile>& exports) {
    const auto is_there = [&](const std::string& name) {
        return std::ranges::any_of(exports, [&](const ExportFile& file) { return matches(name, file.name); });
    };
    std::vector<input::Problem> problems;
    const auto note = [&](const std::string& name) {
        if (!is_there(name))
            problems.push_back({name, {}, "no export with the name " + input::quoted(name), "one of the exports given", {}});
    };
    for (const GivenRole& one : given.roles) note(one.file);
    for (const auto& [name, said] : given.read_as) {
        note(name);
        if (is_sheet_name(name)) problems.push_back({name, {}, "how the letters of a workbook are read", "a text", {}});
    }
    for (const auto& [name, sheets] : given.sheets) {
        note(name);
        if (!is_sheet_name(name)) problems.push_back({name, {}, "sheets of a text", "a workbook: .xlsx or .ods", {}});
    }
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
}

}  // namespace

Proposal propose(const std::vector<ExportFile>& exports, const Given& given) {
    require_exports_of(given, exports);
    Node series = array_node(), entries = array_node();
    std::vector<ExportSeen> seen_exports;
    const std::vector<ExportKind> kinds = kinds_of(exports, given);
    for (const ExportKind& kind : kinds) {
        const std::vector<Role> roles = roles_of(kind.seen, given_for(kind, kinds, given.roles));
        entries.items.push_back(written_export(kind.seen, roles, kind.pattern, series));
        seen_exports.push_back(as_seen(kind.seen, roles, kind.pattern));
    }
    const Node mapping = object_node({named("format", string_node("wayfolio-mapping")), named("version", number_node("1")),
                                      named("series", std::move(series)), named("exports", std::move(entries))});
    return {written(mapping), std::move(seen_exports)};
}

std::string preview_text(const Proposal& proposal) {
    std::string text;
    for (const ExportSeen& seen : proposal.exports) {
        text += fmt::format("{}:\n", input::printable(seen.file));
        for (std::size_t place = 0; place < seen.columns.size(); ++place) {
            const ColumnSeen& column = seen.columns[place];
            const std::string head = column.head.empty() ? fmt::format("column {}", place + 1) : "\"" + column.head + "\"";
            text += fmt::format("  {:<28} {:<34} {}\n", input::printable(head), column.becomes,
                                input::printable(fmt::format("{}", fmt::join(column.first, " | "))));
        }
        if (seen.several_blocks) text += "  the head stands more than once: what names a block stands in {\"above\": ...}\n";
    }
    return text;
}

}  // namespace wayfolio::gather
