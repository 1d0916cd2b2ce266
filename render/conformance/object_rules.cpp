#include "conformance/page_content.hpp"
#include "conformance/checked_file.hpp"

namespace wayfolio::conformance {

namespace {

bool is_name(Handle dictionary, const char* key, const char* name) { return dictionary.getKey(key).isNameAndEquals(name); }

std::string font_name(Handle font) { return font.getKey("/BaseFont").isName() ? font.getKey("/BaseFont").getName() : "a font"; }

bool has_file(Handle font) {
    Handle descriptor = font.getKey("/FontDescriptor");
    if (!descriptor.isDictionary()) return false;
    for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"})
        if (descriptor.getKey(key).isStream()) return true;
    return false;
}

void check_font(const CheckedFile& subject, Handle font) {
    Handle inner = font;
    if (is_name(font, "/Subtype", "/Type0")) {
        Handle descendants = font.getKey("/DescendantFonts");
        inner = descendants.isArray() && descendants.getArrayNItems() == 1 ? descendants.getArrayItem(0) : Handle::newDictionary();
    }
    if (!has_file(inner)) subject.fault("font-embedded", font_name(font), "not embedded");
    if (!font.getKey("/ToUnicode").isStream()) subject.fault("font-unicode", font_name(font), "no map to Unicode");
    if (is_name(inner, "/Subtype", "/CIDFontType2") && !is_name(inner, "/CIDToGIDMap", "/Identity") &&
        !inner.getKey("/CIDToGIDMap").isStream())
        subject.fault("font-glyph-map", font_name(font), "no /CIDToGIDMap");
}

void check_stream(const CheckedFile& subject, Handle stream) {
    Handle dictionary = stream.getDict(), filter = dictionary.getKey("/Filter");
    const std::string where = "object " + std::to_string(stream.getObjectID());
    for (Handle one : filter.isArray() ? filter.getArrayAsVector() : std::vector<Handle>{filter})
        if (one.isNameAndEquals("/LZWDecode") || one.isNameAndEquals("/Crypt")) subject.fault("stream-filters", where, one.getName());
    if (dictionary.hasKey("/F")) subject.fault("stream-filters", where, "the stream lies in another file");
    if (!is_name(dictionary, "/Subtype", "/Image")) return;
    Handle interpolate = dictionary.getKey("/Interpolate");
    if (interpolate.isBool() && interpolate.getBoolValue()) subject.fault("image-interpolation", where, "/Interpolate true");
    if (is_name(dictionary, "/ColorSpace", "/DeviceCMYK")) subject.fault("colour", where, "a picture in four inks");
}

}  // namespace

void check_objects(const CheckedFile& subject) {
    for (Handle object : subject.file.getAllObjects()) {
        if (object.isStream()) check_stream(subject, object);
        if (object.isDictionary() && is_name(object, "/Type", "/Font") && !is_name(object, "/Subtype", "/CIDFontType0") &&
            !is_name(object, "/Subtype", "/CIDFontType2"))
            check_font(subject, object);
    }
    int number = 0;
    for (Handle page : subject.file.getAllPages()) {
        const std::string where = "page " + std::to_string(++number);
        const PageContent content = content_of(page);
        if (content.cmyk) subject.fault("colour", where, "a colour of four inks");
        if (content.texts == 0) subject.fault("page-text", where, "no text");
        if (content.missing_glyphs > 0)
            subject.fault("glyph-missing", where, std::to_string(content.missing_glyphs) + " boxes of missing characters");
        if (content.untagged > 0)
            subject.fault("content-tagged", where, std::to_string(content.untagged) + " drawing operators outside the structure");
        for (const int doubled : content.doubled)
            subject.fault("content-once", where, "marked content " + std::to_string(doubled) + " stands twice");
    }
}

}  // namespace wayfolio::conformance
