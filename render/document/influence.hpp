#pragma once
#include <span>
#include <string_view>

namespace wayfolio::document {

/// What the program brings into a budget by itself. A contributor of the document that names one of the first three takes its place;
/// the last three are results of the readings and of the square.
enum class Influence {
    Instrument,           ///< certificate: constant and length-proportional part
    ExpansionCoefficient,
    Drift,
    Scatter,
    Slope,
    Square,
};

/// The word in a document, and what takes the place is named after.
struct KnownInfluence {
    Influence influence;
    std::string_view word;
    std::string_view name;
};

/// Every influence once, in the order of Influence.
std::span<const KnownInfluence> known_influences();

/// Those that a contributor of the document can take the place of.
std::span<const KnownInfluence> replaceable_influences();

std::string_view influence_word(Influence influence);
std::string_view influence_name(Influence influence);

}  // namespace wayfolio::document
