#include "output/finish_pdf.hpp"

#include "output/attach.hpp"
#include "output/dates.hpp"
#include "output/drawn_objects.hpp"
#include "output/qpdf.hpp"
#include "output/srgb_profile.hpp"
#include "output/structure_tree.hpp"
#include "output/write_pdf.hpp"
#include "output/xmp.hpp"

#include <algorithm>

namespace wayfolio::output {

namespace {

/// The document information dictionary, and the XMP that must say the same.
void set_information(QPDF& file, const Metadata& metadata) {
    Handle info = file.getTrailer().getKey("/Info");
    const std::string producer = info.getKey("/Producer").getUTF8Value(), time = whole_time(metadata.created);
    const auto set = [&](const char* key, const std::string& value) {
        if (value.empty())
            info.removeKey(key);
        else
            info.replaceKey(key, Handle::newUnicodeString(value));
    };
    set("/Title", metadata.title);
    set("/Author", metadata.author);
    set("/Subject", metadata.subject);
    set("/Keywords", metadata.keywords);
    set("/Creator", metadata.creator);
    set("/CreationDate", pdf_date(time));
    set("/ModDate", pdf_date(time));
    Handle packet = file.newStream(xmp(metadata, producer));
    packet.getDict().replaceKey("/Type", Handle::newName("/Metadata"));
    packet.getDict().replaceKey("/Subtype", Handle::newName("/XML"));
    file.getRoot().replaceKey("/Metadata", packet);
}

void set_output_intent(QPDF& file) {
    Handle profile = file.newStream(srgb_profile());
    profile.getDict().replaceKey("/N", Handle::newInteger(3));
    Handle intent = Handle::parse(
        "<< /Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB IEC61966-2.1) /Info (sRGB IEC61966-2.1) >>");
    intent.replaceKey("/DestOutputProfile", profile);
    Handle intents = Handle::newArray();
    intents.appendItem(intent);
    file.getRoot().replaceKey("/OutputIntents", intents);
}

bool is_number(const std::string& label) {
    return !label.empty() && label.size() < 8 && label[0] != '0' &&
           std::ranges::all_of(label, [](char c) { return c >= '0' && c <= '9'; });
}

/// Written here, since Cairo 1.16 leaves the number tree empty when labels are plain numbers.
void set_page_labels(QPDF& file, const std::vector<std::string>& labels) {
    Handle numbers = Handle::newArray();
    for (std::size_t page = 0; page < labels.size(); ++page) {
        Handle label = Handle::newDictionary();
        if (is_number(labels[page])) {
            label.replaceKey("/S", Handle::newName("/D"));
            label.replaceKey("/St", Handle::newInteger(std::stoi(labels[page])));
        } else {
            label.replaceKey("/P", Handle::newUnicodeString(labels[page]));
        }
        numbers.appendItem(Handle::newInteger(static_cast<long long>(page)));
        numbers.appendItem(label);
    }
    Handle tree = Handle::newDictionary();
    tree.replaceKey("/Nums", numbers);
    file.getRoot().replaceKey("/PageLabels", tree);
}

long long visible_entries(Handle parent) {
    long long visible = 0;
    for (Handle entry = parent.getKey("/First"); entry.isDictionary(); entry = entry.getKey("/Next")) {
        ++visible;
        if (entry.getKey("/Count").isInteger() && entry.getKey("/Count").getIntValue() > 0) visible += visible_entries(entry);
    }
    return visible;
}

/// Cairo 1.16 writes a negative count at the root, which ISO 32000-1 table 152 forbids.
void set_outline_count(Handle root) {
    Handle outlines = root.getKey("/Outlines");
    if (!outlines.isDictionary()) return;
    outlines.replaceKey("/Count", Handle::newInteger(visible_entries(outlines)));
    root.replaceKey("/PageMode", Handle::newName("/UseOutlines"));
}

void set_catalog(QPDF& file, const Metadata& metadata) {
    Handle root = file.getRoot();
    root.replaceKey("/Lang", Handle::newUnicodeString(metadata.language));
    root.replaceKey("/MarkInfo", Handle::parse("<< /Marked true >>"));
    root.replaceKey("/ViewerPreferences", Handle::parse("<< /DisplayDocTitle true >>"));
    set_outline_count(root);
}

/// Tab order by structure, and links that print.
void set_pages(QPDF& file) {
    for (Handle page : file.getAllPages()) {
        page.replaceKey("/Tabs", Handle::newName("/S"));
        if (page.getKey("/Annots").isArray())
            for (Handle annotation : page.getKey("/Annots").getArrayAsVector())
                annotation.replaceKey("/F", Handle::newInteger(4));
    }
}

void set_contents(QPDF& file, const std::vector<PageContent>& contents) {
    for (const PageContent& content : contents) file.getObjectByID(content.object, 0).replaceStreamData(content.packed, Handle::newName("/FlateDecode"), Handle::newNull());
}

/// Cairo leaves out the glyph map of TrueType fonts, which ISO 19005-3 6.2.11.3.2 demands.
void set_glyph_maps(QPDF& file, const std::string& drawn) {
    for (Handle font : objects_beginning(file, drawn, "<< /Type /Font\n   /Subtype /CIDFontType2\n"))
        font.replaceKey("/CIDToGIDMap", Handle::newName("/Identity"));
}

}  // namespace

std::string finish_pdf(const std::string& drawn, const PdfParts& parts) {
    QPDF file;
    file.setSuppressWarnings(/*val=*/true);
    file.processMemoryFile("drawn pages", drawn.data(), drawn.size());
    const ObjectTexts tree = structure_tree(file, drawn, parts.tags);
    set_contents(file, parts.contents);
    set_catalog(file, parts.metadata);
    set_page_labels(file, parts.page_labels);
    set_pages(file);
    set_glyph_maps(file, drawn);
    set_output_intent(file);
    set_information(file, parts.metadata);
    attach(file, parts.attachments, parts.packed_attachments, whole_time(parts.metadata.created));
    return write_pdf(file, tree);
}

}  // namespace wayfolio::output
