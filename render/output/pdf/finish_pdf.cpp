#include "output/pdf/finish_pdf.hpp"

#include "output/pdf/attach.hpp"
#include "output/pdf/dates.hpp"
#include "output/pdf/destinations.hpp"
#include "output/pdf/outline.hpp"
#include "output/pdf/qpdf.hpp"
#include "output/pdf/srgb_profile.hpp"
#include "output/pdf/structure_tree.hpp"
#include "output/pdf/write_pdf.hpp"
#include "output/pdf/xmp.hpp"

#include <algorithm>
#include <future>
#include <stdexcept>

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

/// Structure and links: thousands of objects of which each says little, made as texts.
struct Structure {
    StructureTree tree;
    ObjectTexts texts;
};

std::vector<int> numbers_of(const std::vector<Handle>& objects) {
    std::vector<int> numbers;
    for (const Handle& object : objects) numbers.push_back(Handle(object).getObjectID());
    return numbers;
}

/// Made while the pages are joined: their numbers are known before they are there. Its own follow theirs, and the file's next follow it.
std::future<Structure> structure_beside(QPDF& file, const std::vector<TagRecord>& records, const std::vector<frame::Frame>& frames, const std::vector<int>& pages) {
    const int first = pages.back() + 1, count = structure_objects(records);
    named(file, first + count - 1);
    return std::async(std::launch::async, [&records, &frames, &pages, first, count] {
        NewObjects objects(first);
        StructureTree tree = structure_tree(records, destinations_of(frames), pages, objects);
        if (objects.number() != first + count) throw std::logic_error("the structure tree takes other object numbers than were kept for it");
        return Structure{std::move(tree), objects.take()};
    });
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

/// Bookmarks as texts, numbered after all else.
void add_outline(QPDF& file, const std::vector<frame::Frame>& frames, const std::vector<int>& page_numbers, ObjectTexts& texts) {
    NewObjects objects(static_cast<int>(file.getObjectCount()) + 1);
    const auto bookmarks = outline(frames, page_numbers, objects);
    if (!bookmarks) return;
    file.getRoot().replaceKey("/Outlines", named(file, *bookmarks));
    file.getRoot().replaceKey("/PageMode", Handle::newName("/UseOutlines"));
    texts.merge(objects.take());
}

}  // namespace

std::string finish_pdf(const PagesFiles& drawn, const PdfParts& parts) {
    QPDF file;
    file.emptyPDF();
    const std::vector<Handle> pages = reserve_pages(file, parts.pages.size());
    const std::vector<TagRecord> records = joined_records(drawn);
    const std::vector<int> numbers = numbers_of(pages);
    std::future<Structure> beside = structure_beside(file, records, parts.pages, numbers);
    join_pages(file, drawn, pages);
    set_catalog(file, parts.metadata);
    set_page_labels(file, parts.pages);
    set_output_intent(file);
    set_information(file, parts.metadata, drawn.front()->producer());
    attach(file, parts.attachments, parts.packed_attachments, whole_time(parts.metadata.created));
    Structure structure = beside.get();
    set_pages(file, pages, structure.tree);
    file.getRoot().replaceKey("/StructTreeRoot", named(file, structure.tree.root));
    add_outline(file, parts.pages, numbers, structure.texts);
    return write_pdf(file, std::move(structure.texts));
}

}  // namespace wayfolio::output
