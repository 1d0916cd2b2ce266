#pragma once
#include "compare/comparison.hpp"
#include "units/position.hpp"

#include <optional>
#include <set>

/// The parts of compare(). Private to this room.
namespace wayfolio::compare {

/// Whether two values are one, but for the rounding of a conversion between units: they differ by less than a ten-millionth of the
/// larger or than 1e-6 µm (µrad). Common practice, no source. A value and none are not the same, nor are a length and an angle.
bool same_value(const std::optional<units::Deviation>& a, const std::optional<units::Deviation>& b);

/// Whether two places are one target: within 0.1 µm (µrad), which is more than six decimals of an inch or four of a millimetre lose
/// and less than any axis can be told to go. Common practice, no source.
bool same_place(const units::Position& a, const units::Position& b);

/// What the two documents (JSON texts) say differently, readings and remarks of their own left out.
/// `other_ids`: series whose counterpart has another id, which are compared with it.
std::vector<Change> document_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids);

/// What a document takes over from another one.
struct TakenOver {
    std::set<std::size_t> changes;                      ///< places among document_changes()
    std::set<std::string, std::less<>> readings_of;     ///< ids, in the new document, of series whose readings are those of the new one
};
/// The old document (a JSON text) with some of the changes made. Whether that can be read and evaluated is another matter.
std::string with_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids, const TakenOver& taken);

/// Reading by reading, at the same target, run and direction.
ReadingChanges reading_changes(const document::Series& was, const document::Series& now);

/// Every result of two paired series: parameters, local straightness of each length, and the parameters at the tool point.
std::vector<ParameterChange> result_changes(const SeriesPair& pair, const Side& was, const Side& now, bool same_runs);

/// A value of one side, its uncertainty, and why there is none.
struct Found {
    std::optional<Deviation> value{};
    const evaluate::ParameterUncertainty* uncertainty = nullptr;
    std::string reason = "no such parameter on this side";
};

/// Enters both sides, and holds their difference against its U.
/// @param document the new one, whose coverage counts
void weigh(ParameterChange& change, const Found& was, const Found& now, bool same_runs, const document::Document& document);

/// "300 mm", as the names of results and verdicts have it.
std::string length_words(double length_mm);

/// A squareness on both sides, or on one whose series have counterparts on the other.
struct SquarenessPair {
    const evaluate::SquarenessEvaluation *was, *now;  ///< one of the two may be nullptr
    std::string parameter;                            ///< "squareness of X and Y"; with its series where the axes have several
};

/// Paired by axes and series, else by the axes alone where that leaves no choice.
std::vector<SquarenessPair> paired_squareness(const std::vector<SeriesPair>& series, const evaluate::Evaluation& was,
                                              const evaluate::Evaluation& now);

/// @param same_runs ids (of the new document) of the paired series whose readings are the same
ParameterChange squareness_change(const SquarenessPair& pair, const Side& was, const Side& now, const std::vector<std::string>& same_runs);

}  // namespace wayfolio::compare
