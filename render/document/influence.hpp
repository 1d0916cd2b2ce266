#pragma once
#include <span>
#include <string_view>

namespace wayfolio::document {

/// What the program brings into an uncertainty by itself: lines of a budget, and known biases that were not corrected. A contributor
/// of the document that names one of the first seven takes its place; the last three are results of the readings and of the square.
enum class Influence {
    Instrument,           ///< certificate: constant and length-proportional part
    ExpansionCoefficient,
    Drift,
    AirCorrection,        ///< the instrument took other air than the record has
    ExpansionCorrection,  ///< it took another coefficient than the axis has
    Cosine,               ///< the beam stood at an angle to the axis
    DeadPath,
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
