#pragma once
#include "evaluate/evaluation.hpp"

#include <optional>
#include <string>
#include <string_view>

/// The words of the evaluation output for closed sets: the input's words, with underscores for hyphens.
namespace wayfolio::evaluate {

std::string_view word(SeriesKind kind);
std::string_view word(Source source);
std::string_view word(Side side);
std::string_view word(document::ReferenceLine line);
std::string word(document::Influence influence);
std::string_view word(document::DecisionRule rule);
std::string_view word(document::TableKind kind);
std::string_view word(Outcome outcome);
/// The outcome of that word; nothing for any other text.
std::optional<Outcome> outcome_called(std::string_view word);
std::string_view word(SetupVerdict verdict);
std::string_view word(KnownBias::Treatment treatment);

}  // namespace wayfolio::evaluate
