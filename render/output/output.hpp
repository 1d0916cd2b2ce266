#pragma once
#include "files/output_failed.hpp"
#include "frame/frame.hpp"
#include "text/shaper.hpp"
#include "units/version.hpp"

#include <exception>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// What a PDF or SVG says of itself. Everything comes from the document; nothing from the clock.
struct Metadata {
    std::string title, author, subject, keywords;
    std::string created;   ///< ISO 8601 date or date-time from the document; "" gives 1970-01-01T00:00:00Z
    std::string language = "en";
    std::string creator = "wayfolio";  ///< program and version
    std::string identifier;  ///< of exactly this content, e.g. its fingerprint (XMP dc:identifier; an SVG's ids are made of it too)
    std::string source;                ///< what it was made from (XMP dc:source)
    std::string shown_data;            ///< an SVG's metadata: the data that it shows, as text
};

/// How an embedded file belongs to the document (ISO 32000-2 table 43, AFRelationship).
enum class Relationship { Source, Supplement, Data };

/// A file that a PDF carries, byte for byte.
struct Attachment {
    std::string name, mime, bytes;
    Relationship relationship = Relationship::Source;
    std::string description;
};

/// An attachment as a PDF holds it: made once for files that many PDFs carry.
struct EmbeddedFile {
    std::string name, description;
    Relationship relationship;
    std::string entries;  ///< of its stream's dictionary
    std::string packed;   ///< its bytes (RFC 1950)
};
using EmbeddedFiles = std::vector<std::shared_ptr<const EmbeddedFile>>;

/// A picture of a document that cannot be drawn, or that could take time or memory without bound.
class PictureRefused : public std::exception {
public:
    PictureRefused(std::string found, std::string expected);
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
    [[nodiscard]] const std::string& found() const { return found_; }
    [[nodiscard]] const std::string& expected() const { return expected_; }

private:
    std::string found_, expected_, text_;
};

// What follows may be called from several threads at a time, each with a shaper of its own. It asks neither clock nor locale: the same
// arguments give the same bytes.

/// PDF bytes of the pages, made after PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1); a page is let go of once it is drawn. Text is real
/// text; groups become the structure tree, everything else an artifact. A table head inside a later part of a group with `continues` is
/// taken for the repeated head and is not read aloud again.
/// @throws files::OutputFailed when there are no pages, Cairo reports an error, or a coordinate is not finite or off any sane page
/// @throws std::logic_error for text directly in a table, row or list, a link inside an artifact, a link to an anchor that no group has, or
/// a creation date that is no ISO 8601 date
std::string pdf(std::vector<frame::Frame> pages, const Metadata& metadata, const text::Shaper& shaper,
                const std::vector<Attachment>& attachments = {});
/// The same with files that were packed before, or are being packed: they are asked for when the pages are drawn.
/// @throws as pdf(), and what `files` throws
std::string pdf_with(std::vector<frame::Frame> pages, const Metadata& metadata, const text::Shaper& shaper,
                     const std::function<EmbeddedFiles()>& files);
/// Packs files for any number of PDFs. @param created as in their Metadata
EmbeddedFiles embedded(const std::vector<Attachment>& attachments, const std::string& created);

/// SVG 1.1 bytes of one frame, sized in points: outlines, title, description and a transparent text layer. Its ids are those of no other
/// figure, so that any number of figures can stand in one web page; there is no sheet behind it, and on a dark page it is drawn light.
/// Pictures are embedded as they are given.
/// @throws files::OutputFailed when Cairo reports an error or a coordinate is not finite or off any sane page
std::string svg(const frame::Frame& frame, const Metadata& metadata, const text::Shaper& shaper);

/// PNG bytes of one frame on white at `dots_per_inch` (one point is 1/72 inch), which they state; sides are rounded up to whole pixels.
/// @throws files::OutputFailed as svg()
std::string png(const frame::Frame& frame, const text::Shaper& shaper, double dots_per_inch = 150);

/// Why a picture cannot be drawn; nothing where it can. @throws files::OutputFailed when librsvg is needed and not installed
std::optional<PictureRefused> picture_fault(const frame::Image& image);

/// The libraries that draw and write, beyond those of text::library_versions().
LibraryVersions library_versions();
/// The library that draws SVG pictures; it is loaded for that. @throws files::OutputFailed when it is not installed
LibraryVersion svg_library_version();

}  // namespace wayfolio::output
