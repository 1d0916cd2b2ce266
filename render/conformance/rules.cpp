#include "conformance/conformance.hpp"

#include <array>

namespace wayfolio::conformance {

namespace {

// Clauses from memory of ISO 19005-3:2012 ("A-3") and ISO 14289-1:2014 ("UA-1"); "own": asked by no standard, but by a careful reader.
// clang-format off
constexpr std::array<Rule, 59> all{{
    {"file-header", "A-3 6.1.2", "the file begins with %PDF-1.n and a comment of four bytes above 127"},
    {"file-id", "A-3 6.1.3", "the trailer has an ID of two strings"},
    {"file-encryption", "A-3 6.1.3", "the file is not encrypted"},
    {"file-end", "A-3 6.1.3", "nothing follows the last %%EOF but a line end"},
    {"file-streams", "A-3 6.1.7.1", "a line end stands before every endstream"},
    {"file-syntax", "A-3 6.1", "the file is read without a repair"},
    {"catalog-language", "UA-1 7.2", "the catalog names the language"},
    {"catalog-marked", "UA-1 7.1", "the catalog says that the file is tagged"},
    {"catalog-suspects", "UA-1 7.1", "the catalog does not say that the tags are suspect"},
    {"catalog-title", "UA-1 7.1", "viewers show the title, not the file's name"},
    {"catalog-actions", "A-3 6.5", "no script, no action by itself, none but links to a place or an address"},
    {"intent", "A-3 6.2.3", "one output intent with a sound RGB profile"},
    {"metadata", "A-3 6.6.2", "there is an XMP packet, not compressed away or filtered"},
    {"metadata-xml", "A-3 6.6.2.1", "the packet is well-formed XML with an rdf:RDF"},
    {"metadata-part", "A-3 6.6.4", "the packet says part 3, conformance A"},
    {"metadata-schemas", "A-3 6.6.2.3.1", "every property of the packet is of a known schema, or of one that the packet describes"},
    {"metadata-ua", "UA-1 5", "the packet says part 1 of PDF/UA, and describes that schema"},
    {"metadata-title", "UA-1 7.1", "the packet has a title"},
    {"metadata-info", "A-3 6.6.3", "the information dictionary and the packet say the same"},
    {"stream-filters", "A-3 6.1.7.2", "no LZW, no encryption, no stream in another file"},
    {"limits", "A-3 6.1.13", "no string over 32 767 bytes, name over 127, whole number over 31 bits, or over 28 states saved"},
    {"image-interpolation", "A-3 6.2.8", "no image asks for interpolation"},
    {"blend-modes", "A-3 6.2.10", "no blend mode that there is not"},
    {"font-embedded", "A-3 6.2.11.4", "every font is embedded"},
    {"font-unicode", "A-3 6.2.11.7", "every font maps to Unicode"},
    {"font-unicode-values", "A-3 6.2.11.7.2", "no code means U+0000, U+FEFF or U+FFFE"},
    {"unicode-private", "A-3 6.2.11.7.3", "a character of private use has a text in its place"},
    {"font-widths", "A-3 6.2.11.5", "glyphs that are shown are as wide in the font dictionary as in the font program"},
    {"font-glyph-map", "A-3 6.2.11.3", "every TrueType CID font has its glyph map"},
    {"colour", "A-3 6.2.4.3", "no colour that the output intent does not cover"},
    {"glyph-missing", "own", "no glyph 0, the box of a missing character"},
    {"page-text", "own", "every page has text"},
    {"content-operators", "A-3 6.2.2", "no operator that there is not"},
    {"content-tagged", "UA-1 7.1", "all that is drawn is in the structure or an artifact"},
    {"content-balance", "ISO 32000-1 14.6.1", "all marked content that begins also ends on its page"},
    {"content-once", "UA-1 7.1", "each marked content on a page has a number of its own and stands in the structure once"},
    {"artifact-nesting", "UA-1 7.1", "no artifact stands in tagged content or in an artifact, and no tagged content in an artifact"},
    {"content-tags", "own", "marked content has the tag of the element it stands in"},
    {"parent-tree", "ISO 32000-1 14.7.4.4", "the parent tree leads from marked content to the element that has it"},
    {"structure-root", "UA-1 7.1", "the structure is one Document"},
    {"structure-types", "UA-1 7.1", "every structure type is a standard one"},
    {"structure-parents", "ISO 32000-1 14.7.2", "every element names its parent"},
    {"structure-order", "own", "reading does not go back to an earlier page"},
    {"figure-alternative", "UA-1 7.3", "every figure has an alternative text"},
    {"figure-box", "own", "every figure has a bounding box"},
    {"heading-levels", "UA-1 7.4.2", "headings begin at level 1 and leave out none on the way down"},
    {"table-cells", "UA-1 7.5", "tables hold rows, rows hold cells, and all rows are as wide"},
    {"table-scopes", "UA-1 7.5", "every head cell has a scope"},
    {"table-empty-heads", "own", "every head cell has words"},
    {"table-columns", "own", "a table of three columns or more that has row heads also has column heads"},
    {"note-ids", "UA-1 7.9", "every note has an ID of its own"},
    {"link-description", "UA-1 7.18.5", "every link is described"},
    {"link-structure", "UA-1 7.18.5", "every link stands in a Link element"},
    {"annotation-structure", "UA-1 7.18.1", "every other annotation stands in an Annot element, a form field in a Form element"},
    {"link-target", "own", "every link leads somewhere"},
    {"annotation-flags", "A-3 6.3.2", "annotations print and are not hidden"},
    {"page-tabs", "UA-1 7.18.3", "pages with annotations follow the structure"},
    {"attachments", "A-3 6.8", "a carried file has both names, media type, date, description and relationship, and is associated"},
    {"navigation", "own", "bookmarks lead to pages, their count is right, and pages are labelled"},
}};
// clang-format on

}  // namespace

std::span<const Rule> rules() { return all; }

}  // namespace wayfolio::conformance
