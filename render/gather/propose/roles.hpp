#pragma once
#include "document/approach.hpp"
#include "gather/propose/looked_at.hpp"
#include "gather/propose/propose.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wayfolio::gather {

using document::Approach;

/// What a column would become.
enum class Becomes { Nothing, Position, Approach, Run, Time, Mark, Deviation, Actual, RunColumn, TargetColumn, Environment };

struct Role {
    Becomes becomes = Becomes::Nothing;
    std::string error, unit;             ///< of readings, as the head says; "" where it does not
    std::string pattern;                 ///< of several columns
    std::string key;                     ///< of the environment
    std::string form;                    ///< of times: ISO, or with "?" where the day and the month could be exchanged
    std::optional<Approach> approach{};  ///< of a run that was said to be one by hand
    bool listed = false;                 ///< other columns of its pattern are something else: they are named one by one
    bool taken = false;                  ///< it would be the same as another column, of which an export has one only: it is not read
};

/// By the words of each head, and by what stands below it. A column of numbers that no word explains becomes readings.
/// @param given for columns of this export; they go before what the heads say
/// @throws input::InputRejected for a column that is not there, and for two that were given what only one can be
std::vector<Role> roles_of(const LookedAt& seen, const std::vector<GivenRole>& given);

/// Puts what was given in the place of what the heads say; of what an export has only one of, the first that is left counts. @throws as
/// above
void give_roles(std::vector<Role>& roles, const LookedAt& seen, const std::vector<GivenRole>& given);

/// The form in which a column's times are written; with "?" where nothing stands there, or the day and the month could be exchanged.
std::string form_of_column(const LookedAt& seen, std::size_t place);

/// The error symbol in a head, "" where there is none.
std::string symbol_in(std::string_view head);

/// A line above the head that says something of all rows below: a word, and behind it its value.
struct Told {
    std::string word, value;
    std::string form;  ///< of a time, as in Role
};
/// What the lines above the head tell of run, approach or time; nothing for any other, or where none does.
std::optional<Told> told_above(const LookedAt& seen, Becomes what);
/// The error symbol that a line above the head holds, "" for none or several.
std::string error_above(const LookedAt& seen);

bool is_reading(Becomes becomes);

/// The approach that a word means by itself: +, positive, -, negative.
std::optional<Approach> approach_word(std::string_view word);

/// The two patterns of columns that are runs of one quantity in the two directions ("Run # up", "Run # down"); empty where there are none.
/// Which of the directions is positive they do not say.
std::vector<std::string> there_and_back(const std::vector<Role>& roles);

/// "readings of EXX in um", "readings, error and unit open".
std::string words_of(const Role& role);

}  // namespace wayfolio::gather
