#include "conformance/checked_file.hpp"

#include <algorithm>

namespace wayfolio::conformance {

namespace {

constexpr int most_saved_states = 28;  // ISO 19005-3, 6.1.13

void check_content(const CheckedFile& subject, Handle page, const PageContent& content, const std::string& where) {
    const auto counted = [&](const char* rule, std::ptrdiff_t count, const std::string& what) {
        if (count > 0) subject.fault(rule, where, std::to_string(count) + " " + what);
    };
    if (content.cmyk) subject.fault("colour", where, "a colour of four inks");
    if (content.shown.empty()) subject.fault("page-text", where, "no text");
    Handle fonts = resources_of(page, "/Font");
    const auto is_missing = [&](const Shown& shown) {
        Handle font = fonts.getKey(shown.font);
        return shown.code == 0 && font.isDictionary() && font.getKey("/Subtype").isNameAndEquals("/Type0");
    };
    counted("glyph-missing", std::ranges::count_if(content.shown, is_missing), "boxes of missing characters");
    counted("content-tagged", content.untagged, "drawing operators outside the structure");
    counted("artifact-nesting", content.nested_artifacts, "artifacts in tagged content, or the other way round");
    counted("content-balance", content.unbalanced, "beginnings or ends of marked content without the other");
    for (const int doubled : content.doubled)
        subject.fault("content-once", where, "marked content " + std::to_string(doubled) + " stands twice");
    for (const std::string& name : content.unknown) subject.fault("content-operators", where, "the operator " + name);
    if (content.deepest_state > most_saved_states)
        subject.fault("limits", where, std::to_string(content.deepest_state) + " graphics states saved in each other");
}

}  // namespace

void check_contents(const CheckedFile& subject) {
    std::size_t number = 0;
    for (Handle page : subject.file.getAllPages()) {
        check_content(subject, page, subject.contents[number], "page " + std::to_string(number + 1));
        ++number;
    }
}

}  // namespace wayfolio::conformance
