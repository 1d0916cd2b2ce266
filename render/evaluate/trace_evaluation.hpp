#pragma once
#include "document/document.hpp"
#include "evaluate/evaluated.hpp"

#include <optional>
#include <vector>

/// What a record on the fly says by itself. It stands beside the parameters of the standard, which are of readings at rest, and is in no
/// decision.
namespace wayfolio::evaluate {

/// A sample that is named.
struct TracePlace {
    std::size_t sample;  ///< counted from 0
    units::Position position;
    units::Deviation value;
};

/// A reference line of a straightness trace.
struct TraceLine {
    document::ReferenceLine kind;
    units::Deviation straightness;  ///< range of all samples about the line
    units::Angle slope;
    units::Deviation offset;      ///< the line at position 0
    TracePlace highest, lowest;   ///< about the line
};

/// What the passes say at one target, each by the straight line between the samples beside it.
struct TraceTarget {
    units::Position position;
    double written;  ///< as the file wrote it, in the series' position unit
    struct Passes {
        std::size_t n = 0;
        std::optional<units::Deviation> mean{}, s{};
    };
    document::ByApproach<Passes> one_way{};
    std::optional<units::Deviation> reversal{};  ///< mean of positive passes minus mean of negative ones
};

/// The largest of what was found at the targets, and where.
struct TraceLargest {
    units::Deviation value;
    units::Position position;
};

struct TracePeriod {
    units::Deviation amplitude;
    double share;  ///< of what scatters about a straight line, 0..1
};

struct TraceEvaluation {
    std::size_t samples;
    TracePlace highest, lowest;
    Evaluated<document::ByApproach<std::size_t>> passes;
    std::optional<Evaluated<std::vector<TraceLine>>> lines{};  ///< empty: no straightness error
    std::vector<TraceTarget> targets{};                        ///< rising, those that a pass went by
    Evaluated<TraceLargest> reversal;                          ///< the largest in size, signed
    document::ByApproach<Evaluated<TraceLargest>> repeatability;  ///< 4 s over the passes of one direction
    std::optional<double> pitch{};                                ///< as the document asks, in the series' position unit
    std::optional<Evaluated<TracePeriod>> periodic{};             ///< at that pitch
    std::vector<document::TraceSample> outline{};  ///< of samples too many to be held, what can be seen of them on paper
};

}  // namespace wayfolio::evaluate
