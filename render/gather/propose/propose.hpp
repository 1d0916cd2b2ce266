#pragma once
#include "gather/exports/read_export.hpp"
#include "gather/propose/read_as.hpp"

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// A column as it was looked at.
struct ColumnSeen {
    std::string head;     ///< "" where there is none
    std::string becomes;  ///< in words
    std::vector<std::string> first;
};

/// An export, or several that differ in the digits of their names alone.
struct ExportSeen {
    std::string file, sheet;  ///< the sheet that was chosen; "" for a text, or the only one
    std::vector<ColumnSeen> columns;
    bool several_blocks = false;    ///< the head stands more than once
    std::optional<ReadAs> read_as;  ///< all of it, of a text
    std::size_t first_row = 1;      ///< line of the first readings
    bool decimal_open = false;      ///< the decimal mark cannot be told from the numbers, and is asked for
};

/// What a column is, said by a person.
struct GivenRole {
    std::string file, sheet;  ///< as in ExportSeen
    std::size_t column = 0;   ///< from 1
    std::string role;         ///< a word of role_words()
};

/// Something that a column can be.
struct RoleWord {
    std::string_view role, says;
    bool only_one = false;  ///< of the columns of an export one can be it
};
std::span<const RoleWord> role_words();

/// What was said by hand before a mapping is proposed. Roles of exports, sheets and columns that are not there now stay without effect
/// only where their sheet was not chosen.
struct Given {
    std::vector<GivenRole> roles;
    std::map<std::string, std::vector<std::string>> sheets;  ///< those that hold readings, by the name of the workbook
    std::map<std::string, ReadAs> read_as;                   ///< of texts, by the name in ExportSeen
};

struct Proposal {
    std::string mapping;  ///< JSON; what the exports do not say is an open place, "?"
    std::vector<ExportSeen> exports;
};

/// Looks at the beginning of each export and writes down what can be seen there: encoding, delimiter, marks of numbers, heads, what a
/// head's own words say. What they do not say (sign, unit, approach, which error) is left open: it is never guessed.
/// @throws input::InputMissing; input::InputRejected for exports in which no rows of numbers can be seen, for a workbook of several sheets
/// of which none was chosen, and for roles that no column can have
Proposal propose(const std::vector<ExportFile>& exports, const Given& given = {});

/// For a reader: the first rows of each export, with what each column would become.
std::string preview_text(const Proposal& proposal);

}  // namespace wayfolio::gather
