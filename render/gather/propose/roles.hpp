#pragma once
#include "document/approach.hpp"
#include "gather/propose/looked_at.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wayfolio::gather {

using document::Approach;

/// What a column would become.
enum class Becomes { Nothing, Position, Approach, Run, Time, Mark, Deviation, Actual, RunColumn, TargetColumn, Environment };

struct Role {
    Becomes becomes = Becomes::Nothing;
    std::string error, unit;  ///< of readings, as the head says; "" where it does not
    std::string pattern;      ///< of several columns
    std::string key;          ///< of the environment
    std::string form;         ///< of times: ISO, or with "?" where the day and the month could be exchanged
};

/// By the words of each head, and by what stands below it. A column of numbers that no word explains becomes readings.
std::vector<Role> roles_of(const LookedAt& seen);

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
