#pragma once
#include "document/document.hpp"
#include "evaluate/evaluated.hpp"

#include <optional>
#include <vector>

/// What a record on the fly says by itself. It stands beside the parameters of the standard, which are of readings at rest, and is in no
/// decision.
namespace wayfolio::evaluate {

/// A sample that is named, or a filtered value.
struct TracePlace {
    std::optional<std::size_t> sample;  ///< counted from 0; none of a filtered value
    units::Position position;
    units::Deviation value;
};

/// A reference line of a straightness trace.
struct TraceLine {
    document::ReferenceLine kind;
    units::Deviation straightness;  ///< range of all samples, or filtered values, about the line
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

/// Of all windows of one length along the passes the one whose minimum zone is widest.
struct TraceLocal {
    units::Length window;
    struct Widest {
        units::Deviation value;
        units::Deviation at_most;  ///< of a window at any place: the windows are moved by a fiftieth of their length
        units::Position from, to;  ///< from is lower
    };
    Evaluated<Widest> widest;
    std::optional<units::Deviation> limit{};  ///< the least that the document states for this length
};

/// What samples say that were filtered by the Gaussian low-pass of the stated cut-off.
struct TraceFiltered {
    std::size_t values;  ///< 64 in a cut-off length of each pass, without its first and its last
    TracePlace highest, lowest;
    std::optional<Evaluated<std::vector<TraceLine>>> lines{};  ///< empty: no straightness error
    std::vector<TraceLocal> local{};                           ///< of a straightness error, by rising length
};

struct TraceEvaluation {
    std::size_t samples;
    TracePlace highest, lowest;
    Evaluated<document::ByApproach<std::size_t>> passes;
    std::optional<Evaluated<std::vector<TraceLine>>> lines{};  ///< empty: no straightness error
    std::vector<TraceLocal> local{};                           ///< of a straightness error, by rising length
    std::vector<TraceTarget> targets{};                        ///< rising, those that a pass went by
    Evaluated<TraceLargest> reversal;                          ///< the largest in size, signed
    document::ByApproach<Evaluated<TraceLargest>> repeatability;  ///< 4 s over the passes of one direction
    std::optional<double> pitch{};                                ///< as the document asks, in the series' position unit
    std::optional<Evaluated<TracePeriod>> periodic{};             ///< at that pitch
    std::optional<double> cutoff{};                               ///< as the document asks, in the series' position unit
    std::optional<Evaluated<TraceFiltered>> filtered{};           ///< by that cut-off
    std::vector<document::TraceSample> outline{};  ///< of samples too many to be held, what can be seen of them on paper
};

}  // namespace wayfolio::evaluate
