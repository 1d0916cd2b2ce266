#include "archive/verify/pdf_content.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace wayfolio::archive {
namespace {

constexpr std::size_t most_differences = 10;

std::vector<std::string> lines_in(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

/// The lines that differ, one by one where there are as many, else from the first that differs.
std::vector<std::string> compared(const std::string& where, const std::vector<std::string>& kept, const std::vector<std::string>& fresh) {
    std::vector<std::string> found;
    std::size_t more = 0;
    const bool as_many = kept.size() == fresh.size();
    for (std::size_t i = 0; i < std::min(kept.size(), fresh.size()); ++i) {
        if (kept[i] == fresh[i]) continue;
        if (found.size() < most_differences)
            found.push_back(fmt::format("{}: found \"{}\", the data give \"{}\"", where, kept[i], fresh[i]));
        else ++more;
        if (!as_many) break;
    }
    if (!as_many) found.push_back(fmt::format("{}: found {} texts, the data give {}", where, kept.size(), fresh.size()));
    if (more > 0) found.push_back(fmt::format("{}: {} more texts differ", where, more));
    return found;
}

void append(std::vector<std::string>& to, std::vector<std::string> from) { to.insert(to.end(), from.begin(), from.end()); }

}  // namespace

PdfDifferences differences(const PdfContent& kept, const PdfContent& fresh) {
    PdfDifferences found;
    if (kept.pages.size() != fresh.pages.size())
        found.words.push_back(fmt::format("found {} pages, the data give {}", kept.pages.size(), fresh.pages.size()));
    for (std::size_t i = 0; i < std::min(kept.pages.size(), fresh.pages.size()); ++i) {
        const std::string where = fmt::format("page {}", i + 1);
        append(found.words, compared(where, kept.pages[i].texts, fresh.pages[i].texts));
        if (kept.pages[i].drawing != fresh.pages[i].drawing) found.drawing.push_back(where + ": lines, places or pictures differ");
    }
    append(found.words, compared("structure", lines_in(kept.structure), lines_in(fresh.structure)));
    append(found.words, compared("metadata", lines_in(kept.metadata), lines_in(fresh.metadata)));
    append(found.words, compared("bookmarks", lines_in(kept.bookmarks), lines_in(fresh.bookmarks)));
    append(found.words, compared("attachments", lines_in(kept.attachments), lines_in(fresh.attachments)));
    return found;
}

}  // namespace wayfolio::archive
