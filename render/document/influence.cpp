#include "document/influence.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array all_influences{
    KnownInfluence{Influence::Instrument, "instrument", "the certificate of the instrument"},
    KnownInfluence{Influence::ExpansionCoefficient, "expansion-coefficient", "the expansion coefficient of the axis"},
    KnownInfluence{Influence::Drift, "drift", "the drift record"},
    KnownInfluence{Influence::AirCorrection, "air-correction", "the air values that the instrument took"},
    KnownInfluence{Influence::ExpansionCorrection, "expansion-correction", "the values for expansion that the instrument took"},
    KnownInfluence{Influence::Cosine, "cosine", "the angle of the beam to the axis"},
    KnownInfluence{Influence::DeadPath, "dead-path", "changes of the air in the dead path"},
    KnownInfluence{Influence::Scatter, "scatter", "the standard deviation of the readings"},
    KnownInfluence{Influence::Slope, "slope", "the slopes"},
    KnownInfluence{Influence::Square, "square", "the certificate of the square"},
};
constexpr std::size_t replaceable = 7;

constexpr bool influences_stand_in_order() {
    for (std::size_t i = 0; i < all_influences.size(); ++i)
        if (static_cast<std::size_t>(all_influences[i].influence) != i) return false;
    return all_influences[replaceable].influence == Influence::Scatter && all_influences.back().influence == Influence::Square;
}
static_assert(influences_stand_in_order());

}  // namespace

std::span<const KnownInfluence> known_influences() { return all_influences; }
std::span<const KnownInfluence> replaceable_influences() { return known_influences().first(replaceable); }

std::string_view influence_word(Influence influence) { return all_influences[static_cast<std::size_t>(influence)].word; }
std::string_view influence_name(Influence influence) { return all_influences[static_cast<std::size_t>(influence)].name; }

}  // namespace wayfolio::document
