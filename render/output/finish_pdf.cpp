#include "output/finish_pdf.hpp"

#include "output/attach.hpp"
#include "output/dates.hpp"
#include "output/destinations.hpp"
#include "output/outline.hpp"
#include "output/qpdf.hpp"
#include "output/srgb_profile.hpp"
#include "output/structure_tree.hpp"
#include "output/write_pdf.hpp"
#include "output/xmp.hpp"

#include <algorithm>

namespace wayfolio::output {

namespace {

/// The document information dictionary, and the XMP that must say the same.
void set_information(QPDF& file, const Metadata& metadata, const std::string& producer) {
    Handle info = Handle::newDictionary();
    const std::string time = whole_time(metadata.created);
    const auto set = [&](const char* key, const std::string& value) {
        if (!value.empty()) info.replaceKey(key, Handle::newUnicodeString(value));
    };
    set("/Producer", producer);
    set("/Title", metadata.title);
    set("/Author", metadata.author);
    set("/Subject", metadata.subject);
    set("/Keywords", metadata.keywords);
    set("/Creator", metadata.creator);
    set("/CreationDate", pdf_date(time));
    set("/ModDate", pdf_date(time));
    file.getTrailer().replaceKey("/Info", file.makeIndirectObject(info));
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

void set_page_labels(QPDF& file, const std::vector<frame::Frame>& pages) {
    Handle numbers = Handle::newArray();
    for (std::size_t page = 0; page < pages.size(); ++page) {
        Handle label = Handle::newDictionary();
        const std::string& name = pages[page].label;
        if (is_number(name)) {
            label.replaceKey("/S", Handle::newName("/D"));
            label.replaceKey("/St", Handle::newInteger(std::stoi(name)));
        } else {
            label.replaceKey("/P", Handle::newUnicodeString(name));
        }
        numbers.appendItem(Handle::newInteger(static_cast<long long>(page)));
        numbers.appendItem(label);
    }
    Handle tree = Handle::newDictionary();
    tree.replaceKey("/Nums", numbers);
    file.getRoot().replaceKey("/PageLabels", tree);
}

void set_catalog(QPDF& file, const Metadata& metadata) {
    Handle root = file.getRoot();
    root.replaceKey("/Lang", Handle::newUnicodeString(metadata.language));
    root.replaceKey("/MarkInfo", Handle::parse("<< /Marked true >>"));
    root.replaceKey("/ViewerPreferences", Handle::parse("<< /DisplayDocTitle true >>"));
}

/// The file's name for an object that is made as a text. Trap: libqpdf leaves out keys whose object is null, so something stands for it.
Handle named(QPDF& file, int number) {
    file.replaceObject(number, 0, Handle::newInteger(0));
    return file.getObject(number, 0);
}

/// Tab order by structure, the key of the page in the parent tree, and links.
void set_pages(QPDF& file, const std::vector<Handle>& pages, const StructureTree& tree) {
    for (std::size_t i = 0; i < pages.size(); ++i) {
        Handle page = pages[i];
        page.replaceKey("/Tabs", Handle::newName("/S"));
        page.replaceKey("/StructParents", Handle::newInteger(static_cast<long long>(i)));
        Handle annotations = Handle::newArray();
        for (const int number : tree.annotations[i]) annotations.appendItem(named(file, number));
        if (annotations.getArrayNItems() > 0) page.replaceKey("/Annots", annotations);
    }
}

/// Structure, links and bookmarks: thousands of objects of which each says little, made as texts and numbered after all others.
ObjectTexts add_structure(QPDF& file, const std::vector<TagRecord>& records, const std::vector<frame::Frame>& frames) {
    const std::vector<Handle> pages = file.getAllPages();
    std::vector<int> numbers;
    for (const Handle& page : pages) numbers.push_back(Handle(page).getObjectID());
    NewObjects objects(static_cast<int>(file.getObjectCount()) + 1);
    const StructureTree tree = structure_tree(records, destinations_of(frames), numbers, objects);
    set_pages(file, pages, tree);
    Handle root = file.getRoot();
    root.replaceKey("/StructTreeRoot", named(file, tree.root));
    if (const auto bookmarks = outline(frames, numbers, objects)) {
        root.replaceKey("/Outlines", named(file, *bookmarks));
        root.replaceKey("/PageMode", Handle::newName("/UseOutlines"));
    }
    return objects.take();
}

}  // namespace

std::string finish_pdf(const PagesFiles& drawn, const PdfParts& parts) {
    QPDF file;
    file.emptyPDF();
    const std::vector<TagRecord> records = join_pages(file, drawn);
    set_catalog(file, parts.metadata);
    set_page_labels(file, parts.pages);
    set_output_intent(file);
    set_information(file, parts.metadata, drawn.front()->producer());
    attach(file, parts.attachments, parts.packed_attachments, whole_time(parts.metadata.created));
    return write_pdf(file, add_structure(file, records, parts.pages));
}

}  // namespace wayfolio::output
