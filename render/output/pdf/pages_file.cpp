#include "output/pdf/pages_file.hpp"

#include "output/pdf/drawn_objects.hpp"

namespace wayfolio::output {

namespace {

/// Cairo leaves out the glyph map of TrueType fonts, which ISO 19005-3 6.2.11.3.2 demands.
void set_glyph_maps(QPDF& file, const std::string& drawn) {
    for (Handle font : objects_beginning(file, drawn, "<< /Type /Font\n   /Subtype /CIDFontType2\n"))
        font.replaceKey("/CIDToGIDMap", Handle::newName("/Identity"));
}

}  // namespace

PagesFile::PagesFile(DrawnPages drawn) : drawn_(std::move(drawn)) {
    file_.setSuppressWarnings(/*val=*/true);
    file_.processMemoryFile("drawn pages", drawn_.bytes.data(), drawn_.bytes.size());
    pages_ = file_.getAllPages();
    std::size_t place = 0;
    for (Handle page : pages()) page.getKey("/Contents").replaceStreamData(drawn_.contents.at(place++), Handle::newName("/FlateDecode"), Handle::newNull());
    set_glyph_maps(file_, drawn_.bytes);
}

Handle PagesFile::fonts() const { return fonts_of(pages_.front()); }

std::string PagesFile::producer() { return file_.getTrailer().getKey("/Info").getKey("/Producer").getUTF8Value(); }

Handle fonts_of(Handle page) { return page.getKey("/Resources").getKey("/Font"); }

}  // namespace wayfolio::output
