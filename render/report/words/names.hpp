#pragma once
#include "evaluate/evaluation.hpp"
#include "report/model/text.hpp"

#include <string>

/// The words for quantities, states and numbers of things.
namespace wayfolio::report {

/// "Positioning", "Straightness error of X in Z", "Pitch", "Rotation about Y".
std::string quantity_name(const document::Document& document, const document::ErrorSymbol& error);

/// The same without the axes, where the symbol stands beside it: "Straightness error".
std::string quantity_kind(const document::Document& document, const document::ErrorSymbol& error);

/// "positioning of X", "straightness error of X in Z", "pitch of X".
std::string quantity_of_axis(const document::Document& document, const document::ErrorSymbol& error);

/// The same inside a sentence: "pitch", "positioning".
std::string quantity_in_a_sentence(const document::Document& document, const document::ErrorSymbol& error);
/// "EXX, A" for a row's second line: the symbol and the parameter or direction ("vertical", "about Y").
std::string quantity_detail(const document::Document& document, const document::ErrorSymbol& error, std::string_view parameter);
/// "Positioning EXX"
std::string quantity_title(const document::Document& document, const document::ErrorSymbol& error);

/// "EXX, as left"
std::string series_name(const document::Series& series);
/// "Positioning EXX, as left"
std::string series_title(const document::Document& document, const document::Series& series);

/// "as found", "as left", or the user's own word; empty if the series names none.
std::string state_words(std::string_view state);
/// ", as left", or nothing.
std::string state_suffix(std::string_view state);

/// "run 4 positive": the runs of one direction count from 1, as the tables of readings number them.
std::string run_words(const document::Series& series, std::size_t run);

/// "one", "two" ... "twelve", then figures.
std::string count_word(std::size_t count);
std::string capitalised(std::string text);
/// For the middle of a sentence: the first letter small, where it is one of the Latin alphabet.
std::string uncapitalised(std::string text);
/// "a", "a and b", "a, b and c"
std::string listed(const std::vector<std::string>& items);
/// Appends what is not yet there.
void add_once(std::vector<std::string>& items, const std::string& item);

/// The parameter's name in words by the edition in use: "Positioning error" (2014), "Accuracy" (1997, 2006) ... [wording from memory]
std::string parameter_words(std::string_view parameter, std::string_view standard);
/// The letter(s) printed for a parameter: "A", "E", "B"; empty where the name says it all (straightness, angle).
std::string parameter_symbol(std::string_view parameter);

/// The direction that a parameter is of, by its name: positive of "E_positive"; nothing of "E".
std::optional<document::Approach> direction_of(std::string_view parameter);
/// "E_positive" of "E": the same parameter of one direction.
std::string in_direction(std::string_view parameter, document::Approach approach);

/// Which parameter speaks for a series: A, else E where A is not evaluated and no limit asks for it; straightness or angle, of one
/// direction where the readings are.
std::string headline_parameter(const document::Series& series, const evaluate::SeriesEvaluation& evaluation);

/// ", revision 2" of a report, or nothing.
std::string revision_suffix(const document::Job& job);

/// "2026-05-11" of an ISO 8601 date or date-time.
std::string date_part(std::string_view date_time);

}  // namespace wayfolio::report
