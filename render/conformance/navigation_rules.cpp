#include "conformance/checked_file.hpp"

namespace wayfolio::conformance {

namespace {

/// Counts entries that are open to view, and reports those that lead nowhere. A damaged outline may lead in circles.
long long visible_entries(const CheckedFile& subject, Handle parent, int& left, int depth) {
    constexpr int deepest = 100;
    if (depth > deepest) return 0;

    long long visible = 0;
    for (Handle entry = parent.getKey("/First"); entry.isDictionary() && left-- > 0; entry = entry.getKey("/Next")) {
        ++visible;
        Handle action = entry.getKey("/A"), destination = action.isDictionary() ? action.getKey("/D") : entry.getKey("/Dest");
        if (destination.isString() || destination.isName()) destination = named_destination(subject, destination);
        const std::string title = entry.getKey("/Title").isString() ? entry.getKey("/Title").getUTF8Value() : "";
        if (title.empty()) subject.fault("navigation", "a bookmark", "no title");
        if (!leads_to_page(subject, destination)) subject.fault("navigation", "bookmark " + title, "leads to no page");
        const long long below = visible_entries(subject, entry, left, depth + 1);
        if (entry.getKey("/Count").isInteger() && entry.getKey("/Count").getIntValue() > 0) visible += below;
    }
    return visible;
}

}  // namespace

void check_navigation(const CheckedFile& subject) {
    Handle outlines = subject.root().getKey("/Outlines"), labels = subject.root().getKey("/PageLabels");
    const std::size_t pages = subject.file.getAllPages().size();
    constexpr int most_entries = 100'000;
    int left = most_entries;
    if (outlines.isDictionary() && outlines.hasKey("/First")) {
        const long long visible = visible_entries(subject, outlines, left, 0);
        if (!outlines.getKey("/Count").isInteger() || outlines.getKey("/Count").getIntValue() != visible)
            subject.fault("navigation", "bookmarks", "their count is wrong");
    } else if (pages > 1) {
        subject.fault("navigation", "catalog", "several pages, but no bookmarks");
    }
    Handle numbers = labels.isDictionary() ? labels.getKey("/Nums") : Handle::newNull();
    const bool labelled = numbers.isArray() && numbers.getArrayNItems() >= 2 && numbers.getArrayItem(0).isInteger() &&
                          numbers.getArrayItem(0).getIntValue() == 0;
    if (!labelled) subject.fault("navigation", "catalog", "pages are not labelled from the first on");
}

}  // namespace wayfolio::conformance
