#pragma once
#include "frame/frame.hpp"
#include "text/threads.hpp"
#include "units/version.hpp"

#include <exception>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::text {

using frame::Colour;
using frame::Paper;

enum class Weight { Regular, SemiBold };
enum class Slant { Upright, Italic };

/// A piece of a line in one look. Size, family and features come with the TextStyle.
struct Piece {
    std::string text;
    Weight weight = Weight::Regular;
    Slant slant = Slant::Upright;
    Colour colour;
};

struct TextStyle {
    Paper size, leading;
    Paper letter_spacing;
};

/// A shaped line: runs placed with the baseline's left end at (0,0); translate before use.
struct Line {
    std::vector<frame::GlyphRun> runs;
    Paper width;
};

/// A private font lacks a glyph, or a font file is missing or not the one expected.
class FontFailed : public std::exception {
public:
    explicit FontFailed(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

/// The document asks for a character that cannot be set: a fault of the input, not of the installation.
class GlyphMissing : public FontFailed {
public:
    /// @param found the character in words; @param expected what can be set
    GlyphMissing(std::string found, std::string expected)
        : FontFailed("found " + found + "; expected " + expected), found_(std::move(found)), expected_(std::move(expected)) {}
    [[nodiscard]] const std::string& found() const { return found_; }
    [[nodiscard]] const std::string& expected() const { return expected_; }

private:
    std::string found_, expected_;
};

/// Sets text in glyphs; the only user of Pango. Uses only the private fonts in `font_folder`; nothing of the host's: `input::data_folder()
/// / "fonts"`, or a copy that the caller brings. One per thread; cheap to keep, dear to make. Features: tnum=1, calt=0 always; composition
/// only where something combines.
/// @throws FontFailed whatever first needs the fonts, when a file is missing or its SHA-256 differs from fonts/fonts.json
class Shaper {
public:
    /// Returns at once: the fonts are checked and opened on a thread of their own, and what first needs them waits.
    /// @param threads One where the processors have enough to do, as in a batch
    explicit Shaper(std::filesystem::path font_folder, Threads threads = Threads::Several);
    ~Shaper();
    Shaper(Shaper&&) noexcept;
    Shaper& operator=(Shaper&&) noexcept;

    /// Shapes pieces as one line, never broken; tabs and line feeds count as spaces. A trailing space stays in the text, not in the width.
    /// @throws GlyphMissing naming the character, its code point and script when no private font has it, or when it is written from right
    /// to left
    Line line(std::span<const Piece> pieces, const TextStyle& style) const;

    /// Width of the pieces as one line, and of one plain piece.
    Paper width(std::span<const Piece> pieces, const TextStyle& style) const;
    Paper width(std::string_view text, const TextStyle& style, Weight weight = Weight::Regular, Slant slant = Slant::Upright) const;

    /// Breaks into lines of at most `width`, ragged right, no hyphenation; breaks only at ordinary spaces, after hyphens between letters,
    /// and inside a word only when the word alone is wider than the line. '\n' forces a break.
    /// @throws GlyphMissing as `line`
    std::vector<Line> paragraph(std::span<const Piece> pieces, const TextStyle& style, Paper width) const;

    /// To be called between two drawings by whoever makes many: lines and paragraphs that the last one did not ask for are let go of, those
    /// that it did are kept for the next, which has most of its labels from it.
    void let_go_of_old_lines() const;

    /// Another shaper of the same fonts, for one more thread: faces have the same places. Opened when first asked for, which one thread
    /// at a time may do, and kept as long as this one. Nothing where one thread is to do.
    const Shaper* beside() const;

    /// How many threads a drawing with it may take.
    [[nodiscard]] Threads threads() const;

    /// The Cairo scaled-font source of a face, for output/ (a cairo_font_face_t*, owned by the Shaper).
    void* cairo_font_face(frame::FaceId face) const;

    /// SHA-256 and file name of each private font, in a fixed order (for the fingerprint): what the files must be for any text to be set.
    struct FontFile { std::string family, style, file, sha256; };
    const std::vector<FontFile>& fonts() const;
    /// Where they lie.
    const std::filesystem::path& font_folder() const;

private:
    struct Private;
    Shaper();  ///< without fonts
    const Line& kept_line(std::span<const Piece> pieces, const TextStyle& style) const;

    std::unique_ptr<Private> private_;
};

/// The libraries that shape text, as they are loaded.
LibraryVersions library_versions();

/// `line` with all its runs moved so that its baseline starts at `origin`.
std::vector<frame::GlyphRun> placed(Line line, frame::Point origin);
/// Turned by -90 degrees (reads upwards) with the baseline's start at `origin`.
std::vector<frame::GlyphRun> placed_upwards(Line line, frame::Point origin);

}  // namespace wayfolio::text
