#pragma once
#include "frame/frame.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

/// A layout says how a report looks: paper, margins, type, strokes, colours, decimals, shown units, blocks. It knows nothing of results.
namespace wayfolio::layouts {

using frame::Colour;
using units::Paper;

/// One paper size with its grid (all in points). Wide column left..wide_right, margin column margin_left..margin_right.
struct PaperGrid {
    std::string name;  ///< "A4", "Letter"
    Paper width, height, left, wide_right, margin_left, margin_right;
    Paper first_baseline, baseline_step, last_baseline, head_baseline, foot_baseline;
};

struct TypeRole {
    Paper size, leading, letter_spacing;
};

/// A pen: width, colour, dash, by role ("positive_mean", "limit", "table_rule" ...).
struct Pen {
    Paper width;
    Colour colour;
    std::vector<Paper> dash;
};

/// Which units and how many decimals a report shows for one kind of quantity.
struct UnitChoice {
    std::string unit;        ///< spelling of the unit, e.g. "um"; "series": the unit the series was written in
    int decimals = 1;        ///< where no uncertainty fixes the decimals (results)
    int statistics_decimals = 2;  ///< means and s in tables
};

/// Ordered choice of blocks; names are those of page/blocks.
struct Layout {
    std::string name, title, bytes, sha256;
    std::vector<std::string> extended;  ///< bytes of the layouts that it extends, the nearest first
    std::string paper;                 ///< chosen paper name
    std::vector<PaperGrid> papers;
    std::map<std::string, TypeRole, std::less<>> type;   ///< lead, body, small
    std::map<std::string, Colour, std::less<>> colours;  ///< ink, grey, rule, positive, negative, ...
    std::map<std::string, Pen, std::less<>> pens;
    std::map<std::string, Paper, std::less<>> sizes;     ///< named distances: marker radii, plot heights, gaps
    UnitChoice length, angle, rotary;  ///< rotary: deviations of rotary axes, which are angles with limits in their own unit
    std::string linear_position = "m", rotary_position = "deg";
    char decimal_mark = '.';
    std::vector<std::string> blocks;
    bool certificate_draft = false;  ///< the report carries the draft of a machine-readable certificate

    [[nodiscard]] const PaperGrid& grid() const;
    [[nodiscard]] const Pen& pen(std::string_view role) const;
    [[nodiscard]] Colour colour(std::string_view role) const;
    [[nodiscard]] const TypeRole& type_role(std::string_view role) const;
    [[nodiscard]] Paper size(std::string_view role) const;
};

/// Names of the layouts that come with the program.
std::vector<std::string> shipped_layouts();

/// Reads a layout: a shipped name, or a path to the user's own JSON file.
/// @param paper overrides the file's paper ("A4", "Letter"); empty keeps it
/// @throws input::InputRejected with located faults, input::InputMissing
Layout read_layout(const std::string& name_or_path, const std::string& paper);
/// The same from bytes (redraw, tests).
Layout read_layout_bytes(std::string bytes, const std::string& file, const std::string& paper);

/// The same from the bytes of a layout and of all that it extends (`Layout::bytes`, then `Layout::extended`): nothing else is read.
Layout read_kept_layout(const std::vector<std::string>& files, const std::string& paper);

/// The JSON Schema (draft-07 vocabulary) of a layout, as text.
std::string_view layout_schema();

}  // namespace wayfolio::layouts
