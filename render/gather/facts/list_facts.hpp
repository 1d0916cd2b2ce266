#pragma once
#include "gather/facts/facts.hpp"
#include "input/iso_date.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wayfolio::gather {

/// Certificates that expire within so many days are told as if they had expired: a job may take so long. By choice.
inline constexpr int days_before_due = 30;

/// The facts of a laboratory as lines for a reader: what each file holds, then the instruments, those first whose certificates expire
/// first.
/// @param on the day that they are judged by; without one, dates are listed and not judged
/// @throws input::InputRejected with the faults of all files
std::string facts_listing(const std::vector<FactsFile>& files, const std::optional<input::IsoDate>& on);

/// Whether a file says that it holds facts, sound or not.
bool says_facts(const std::string& bytes);

}  // namespace wayfolio::gather
