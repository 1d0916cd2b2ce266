#pragma once
#include "evaluate/evaluation.hpp"
#include "frame/frame.hpp"
#include "layouts/layout.hpp"
#include "output/output.hpp"
#include "document/document.hpp"
#include "text/shaper.hpp"

#include <string>
#include <vector>

/// The whole way from a result document to bytes: what the commands, library users and a service share.
namespace wayfolio::produce {

/// Version and build of this program and versions of the libraries that draw the document, as they are loaded.
LibraryVersions versions_in_use(const document::Document& document);

/// Everything a drawing needs. Plain references: the caller owns the values and keeps them alive.
struct Drawing {
    const document::Document& document;
    const evaluate::Evaluation& evaluation;
    const layouts::Layout& layout;
    const text::Shaper& shaper;
    LibraryVersions versions = versions_in_use(document);  ///< enter the fingerprint; a test of a drawing gives its own
};

/// The report's pages, finished and absolutely placed.
/// @throws input::InputRejected for characters of the document that no private font has, with the place of each text that holds one;
///         text::FontFailed when a font file is missing or not the one expected; std::logic_error for an element too large for its page
std::vector<frame::Frame> report_pages(const Drawing& drawing);

/// The report as PDF bytes, with all that it was made from inside (see inputs.hpp).
/// @throws as report_pages, files::OutputFailed; input::InputRejected for a side file whose name is one of our own, or a logo that cannot
///         be drawn
std::string report_pdf(const Drawing& drawing);

/// One figure that can be drawn, of a series or (`series` empty) of the whole document: `name` is what --figure takes ("error", "reversal",
/// "repeatability"; of the document "environment").
struct FigureName {
    std::string series, name, title;
};
/// All figures the data support, in the document's order.
std::vector<FigureName> figure_names(const document::Document& document, const evaluate::Evaluation& evaluation);

/// As wide as the report's column with its margins, or as a phone held upright (240 pt: 320 pixels of a style sheet), where the letters
/// keep their size.
enum class FigureWidth { Column, Narrow };

/// One figure on a page of its own size.
frame::Frame figure(const Drawing& drawing, const FigureName& which, FigureWidth width = FigureWidth::Column);

enum class FigureFormat { Svg, Pdf, Png };
struct FigureForm {
    FigureFormat format;
    FigureWidth width = FigureWidth::Column;  ///< of a PDF always Column: it is drawn again from what it carries, which has no width
    double dots_per_inch = 150;               ///< of a PNG
};
/// The figure's bytes: a PDF carries all that it was made from, an SVG the fingerprint and the series' numbers. @throws as report_pdf
std::string figure_bytes(const Drawing& drawing, const FigureName& which, const FigureForm& form);

}  // namespace wayfolio::produce
