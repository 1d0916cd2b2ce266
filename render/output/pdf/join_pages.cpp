#include "output/pdf/join_pages.hpp"

#include <algorithm>
#include <set>

namespace wayfolio::output {

namespace {

/// Whether two objects of different files are the same with all that they lead to, which must not lead back to them.
bool same(Handle one, Handle other) {
    if (one.getTypeCode() != other.getTypeCode()) return false;
    if (one.isStream()) return same(one.getDict(), other.getDict()) && text_of(one.getRawStreamData()) == text_of(other.getRawStreamData());
    if (one.isDictionary()) {
        const std::set<std::string> keys = one.getKeys();
        return keys == other.getKeys() && std::ranges::all_of(keys, [&](const std::string& key) { return same(one.getKey(key), other.getKey(key)); });
    }
    if (one.isArray()) {
        bool all = one.getArrayNItems() == other.getArrayNItems();
        for (int i = 0; all && i < one.getArrayNItems(); ++i) all = same(one.getArrayItem(i), other.getArrayItem(i));
        return all;
    }
    return one.unparseResolved() == other.unparseResolved();
}

/// Copies a page, whose fonts are called as those of `fonts` are, to its place.
void copy_onto(QPDF& whole, Handle place, Handle page, Handle fonts) {
    Handle used = fonts_of(page);
    if (used.isDictionary()) page.getKey("/Resources").removeKey("/Font");
    whole.replaceObject(place.getObjGen(), whole.copyForeignObject(page).shallowCopy());
    whole.addPage(place, /*first=*/false);
    if (!used.isDictionary()) return;
    Handle named = Handle::newDictionary();
    for (const std::string& name : used.getKeys()) named.replaceKey(name, whole.copyForeignObject(fonts.getKey(name)));
    place.getKey("/Resources").replaceKey("/Font", named);
}

void append(std::vector<TagRecord>& records, const std::vector<TagRecord>& more) {
    const std::size_t shift = records.size() - 1;  // both begin with the Document, which is one
    for (std::size_t i = 1; i < more.size(); ++i) {
        records.push_back(more[i]);
        std::size_t& parent = records.back().parent.value();
        if (parent > 0) parent += shift;
    }
}

}  // namespace

std::vector<TagRecord> joined_records(const PagesFiles& files) {
    std::vector<TagRecord> records = files.front()->records();
    for (std::size_t i = 1; i < files.size(); ++i) append(records, files[i]->records());
    return records;
}

std::vector<Handle> reserve_pages(QPDF& whole, std::size_t count) {
    std::vector<Handle> places;
    for (std::size_t i = 0; i < count; ++i) places.push_back(whole.makeIndirectObject(Handle::newDictionary()));
    return places;
}

void join_pages(QPDF& whole, const PagesFiles& files, const std::vector<Handle>& places) {
    const Handle fonts = files.front()->fonts();
    auto place = places.begin();
    for (const std::unique_ptr<PagesFile>& file : files) {
        const bool is_first = file == files.front(), same_fonts = is_first || same(fonts, file->fonts());
        for (const Handle& page : file->pages()) copy_onto(whole, *place++, page, same_fonts ? fonts : file->fonts());
    }
}

}  // namespace wayfolio::output
