#pragma once
#include "report/model/text.hpp"

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace wayfolio::report {

/// A place or a way in the machine: along X, Y and Z, in mm.
using MachinePlace = std::array<double, 3>;

/// Where a series was measured: a stretch parallel to one of the machine's axes.
struct DrawnLine {
    std::string number;  ///< "1": it stands for the line in the figure
    std::size_t axis;    ///< along it: 0 for X, 1 for Y, 2 for Z
    MachinePlace from, to;                           ///< between its first and last target
    std::optional<std::pair<double, double>> travel;  ///< of that axis, rising; none: not stated
    std::optional<MachinePlace> offset;              ///< to the functional point; none: not stated
    std::array<Text, 2> ends;                        ///< at the first and the last target
    std::array<Text, 3> beside;                      ///< at the way from the zero of each other axis; empty for its own
    Text name;                                       ///< "Line 1, along X"
    Text functional_point;                           ///< "150 mm in Z from line 1"; empty: it is on the line, or not stated
};

/// The lines in the machine's own directions, all to one scale. Nothing of the machine's body: documents know nothing of it.
struct LineDrawing {
    std::size_t vertical;  ///< 0 for X, 1 for Y, 2 for Z
    std::optional<std::array<std::pair<double, double>, 3>> volume;  ///< travel of all three axes, rising; none: one is not stated
    Text volume_size;  ///< "6 400 × 2 400 × 1 200 mm"; empty where there is no volume
    std::vector<DrawnLine> lines;
    std::string alternative;
};

}  // namespace wayfolio::report
