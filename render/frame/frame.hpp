#pragma once
#include "frame/geometry.hpp"
#include "frame/rare.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// The page model: finished pages of absolutely placed items. Outputs never measure, break a line or choose a colour.
namespace wayfolio::frame {

struct MoveTo { Point to; };
struct LineTo { Point to; };
struct CurveTo { Point control1, control2, to; };
struct ClosePath {};
using PathStep = std::variant<MoveTo, LineTo, CurveTo, ClosePath>;

enum class Cap { Butt, Round };
enum class Join { Miter, Round };

struct Stroke {
    Colour colour;
    Paper width;
    std::vector<Paper> dash;  ///< empty: solid
    Cap cap = Cap::Butt;
    Join join = Join::Miter;
};

/// An outline, filled, stroked or both (fill first).
struct Path {
    std::vector<PathStep> steps;
    std::optional<Colour> fill;
    std::optional<Stroke> stroke;
};

/// Which private font file a run is set in; resolved by text::Shaper, drawn by the outputs.
struct FaceId {
    std::uint32_t index = 0;
    bool operator==(const FaceId&) const = default;
};

struct Glyph {
    std::uint32_t id;
    Paper x, y;  ///< absolute place of the glyph's origin
};

/// How many glyphs render how many bytes of the text (cairo_text_cluster_t).
struct Cluster {
    std::uint32_t bytes, glyphs;
};

/// One stretch of text in one face, size and colour, shaped once. Clusters run in text order (left to right).
struct GlyphRun {
    FaceId face;
    Colour colour;
    bool rotated = false;  ///< reads upwards (turned by -90 degrees about origin); glyph places are already turned
    Paper size;
    std::string text;  ///< UTF-8, exactly what a reader copies out
    std::vector<Glyph> glyphs;
    std::vector<Cluster> clusters;
    Point origin;   ///< left end of the baseline
    Paper advance;  ///< width of the run
    Paper ascent, descent;  ///< of the ink-independent line box, both positive
};

/// An image placed by its box; bytes are PNG or SVG as given.
struct Image {
    Rect box;
    enum class Format { Png, Svg } format;
    std::shared_ptr<const std::string> bytes;
};

/// A link area. Exactly one of `destination` (name of a Group's anchor) and `uri` is set.
struct Link {
    Rect box;
    RareText destination, uri;
    std::string description;  ///< what a screen reader says
};

/// An entry of the document outline, pointing at a place on this page.
struct Bookmark {
    int level;  ///< 1 is outermost
    std::string title;
    Point at;
};

/// What a group is, for tagged PDF (ISO 32000 standard structure types) and for tests.
enum class Role : std::uint8_t {
    Plain,     ///< no structure of its own: only clip or bundling
    Artifact,  ///< decoration, running head and foot: not read aloud; holds no links and no anchors
    Section, Heading1, Heading2, Heading3, Paragraph, List, ListItem, ListLabel, ListBody,
    Table, TableHead, TableBody, TableRow, HeadCell, DataCell,
    Figure, Caption, Note, Span, LinkText
};

enum class Scope : std::uint8_t { None, Column, Row };

struct Group;
using Item = std::variant<Group, Path, GlyphRun, Image, Link, Bookmark>;

/// Items that belong together. Order of groups is reading order.
struct Group {
    Role role = Role::Plain;
    RareText alternative;  ///< required for Figure: what a colleague would say over the phone; of a Span: the words for what is drawn
    Scope scope = Scope::None;
    int column_span = 1, row_span = 1;
    RareText anchor;     ///< name that a Link can point to; empty if none
    RareText continues;  ///< same non-empty key on several pages: one structure element (a table broken over pages); a table head in a
                         ///< later part is taken for the repeated head and becomes an artifact
    RareText id;         ///< what it is, for dumps and tests; no part of a drawing
    Rare<Rect> clip;
    Rare<Rect> box;  ///< bounds of a Figure
    std::vector<Item> items;
};

/// One finished page or figure.
struct Frame {
    Paper width, height;
    std::string label;  ///< page label, "1", "2" ...; empty for a figure
    std::vector<Item> items;
};

}  // namespace wayfolio::frame
