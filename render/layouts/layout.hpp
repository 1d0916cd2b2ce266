#pragma once
#include "frame/geometry.hpp"
#include "input/data_folder.hpp"
#include "layouts/roles.hpp"

#include <filesystem>
#include <string>
#include <vector>

/// A layout says how a report looks: paper, margins, type, strokes, colours, shown units, blocks. It knows nothing of results.
namespace wayfolio::layouts {

using frame::Colour;
using units::Paper;

/// One paper size with its grid: the wide column from `left` to `wide_right`, the margin column from `margin_left` to `margin_right`,
/// measured from the paper's left edge; baselines from its top edge.
struct PaperGrid {
    std::string name;  ///< "A4", "Letter"
    Paper width, height, left, wide_right, margin_left, margin_right;
    Paper first_baseline, baseline_step, last_baseline, head_baseline, foot_baseline;
};

/// How text is set: size, distance of baselines, and what is added between letters (may be negative).
struct TypeSize {
    Paper size, leading, letter_spacing;
};

struct Pen {
    Paper width;
    Colour colour;
    std::vector<Paper> dash;  ///< lengths drawn and left out in turn; empty: solid
};

/// In which unit a report shows one kind of quantity.
struct UnitChoice {
    std::string unit;  ///< spelling of the unit, e.g. "um"; "document": that of the document
};

/// What a laboratory says in each of its reports.
struct HouseWords {
    std::string first_line;               ///< above all else on the first page; empty: none
    std::string heading;                  ///< of the block "house"
    std::vector<std::string> paragraphs;  ///< in the block "house"
    std::vector<std::string> signatures;  ///< who signs, in order; empty: the people of the document
};

/// A layout as read and complete: every role has its value, every pen its final colour.
struct Layout {
    std::string name, title;
    std::string bytes, sha256;          ///< of the file, without what it marks internal; the digest covers those that it extends too
    std::vector<std::string> extended;  ///< bytes of the layouts that it extends, the nearest first, without what they mark internal
    std::vector<std::filesystem::path> files{};  ///< that it was read from, with those that it extends
    std::string paper;                  ///< name of the chosen one of `papers`
    std::vector<PaperGrid> papers;
    ByRole<TypeRole, TypeSize> types;
    ByRole<ColourRole, Colour> colours;
    ByRole<PenRole, Pen> pens;
    ByRole<SizeRole, Paper> sizes;
    UnitChoice length, angle, rotary;  ///< rotary: deviations of rotary axes, which are angles with limits in their own unit
    std::string linear_position = "document", rotary_position = "deg";
    char decimal_mark = '.';
    std::vector<std::string> blocks;  ///< of block_names, in the order of the report
    HouseWords house;
    bool certificate_draft = false;   ///< the report carries the draft of a machine-readable certificate

    /// The grid of the chosen paper.
    [[nodiscard]] const PaperGrid& grid() const;
    [[nodiscard]] const TypeSize& type(TypeRole role) const { return types[role]; }
    [[nodiscard]] Colour colour(ColourRole role) const { return colours[role]; }
    [[nodiscard]] const Pen& pen(PenRole role) const { return pens[role]; }
    [[nodiscard]] Paper size(SizeRole role) const { return sizes[role]; }
};

/// Where the shipped layouts lie.
inline std::filesystem::path shipped_folder() { return input::data_folder() / "layouts"; }

/// Names of the layouts in `shipped`, in order. @throws input::InputMissing when the folder is not there
std::vector<std::string> shipped_layouts(const std::filesystem::path& shipped = shipped_folder());

/// Reads a layout: a shipped name, or a path to the user's own JSON file.
/// @param paper overrides the file's paper ("A4", "Letter"); empty keeps it
/// @param shipped the folder of the shipped layouts, by name and for `extends`; nothing is asked of it where neither names one
/// @throws input::InputRejected with located faults, input::InputMissing
Layout read_layout(const std::string& name_or_path, const std::string& paper, const std::filesystem::path& shipped = shipped_folder());
/// The same from bytes (tests).
Layout read_layout_bytes(std::string bytes, const std::string& file, const std::string& paper,
                         const std::filesystem::path& shipped = shipped_folder());

/// The same from the bytes of a layout and of all that it extends (`Layout::bytes`, then `Layout::extended`): nothing else is read.
Layout read_kept_layout(const std::vector<std::string>& files, const std::string& paper);

/// The JSON Schema (draft-07 vocabulary) of a layout, as text.
std::string_view layout_schema();

}  // namespace wayfolio::layouts
