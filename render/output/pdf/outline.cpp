#include "output/pdf/outline.hpp"

#include "output/pdf/destinations.hpp"
#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

namespace wayfolio::output {

namespace {

/// An entry of the outline; the first of all is the root, which has neither title nor place.
struct Entry {
    int level, number;
    std::string words;                 ///< title and destination
    std::size_t parent;
    std::vector<std::size_t> children;
};

class Entries {
public:
    Entries(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, NewObjects& objects)
        : pages_(pages), page_objects_(page_objects), objects_(objects) {
        for (std::size_t page = 0; page < pages.size(); ++page) collect(pages[page].items, page);
    }

    std::optional<int> write() {
        if (all_.size() == 1) return std::nullopt;
        for (std::size_t i = 0; i < all_.size(); ++i) objects_.put(all_[i].number, text(i));
        return all_[0].number;
    }

private:
    void collect(const std::vector<frame::Item>& items, std::size_t page) {
        for (const frame::Item& item : items) {
            if (const auto* bookmark = std::get_if<frame::Bookmark>(&item)) add(*bookmark, page);
            if (const auto* group = std::get_if<frame::Group>(&item)) collect(group->items, page);
        }
    }

    /// Belongs under the last one that is further out.
    void add(const frame::Bookmark& bookmark, std::size_t page) {
        std::size_t parent = all_.size() - 1;
        while (all_[parent].level >= bookmark.level) parent = all_[parent].parent;
        all_[parent].children.push_back(all_.size());
        all_.push_back({bookmark.level, objects_.number(),
                        fmt::format("/Title {} /Dest {}", Handle::newUnicodeString(bookmark.title).unparse(), in_words(destination_at(pages_, page, bookmark.at), page_objects_)), parent, {}});
    }

    [[nodiscard]] bool is_open(const Entry& entry) const { return entry.level <= 1; }

    /// Entries to be seen below an open one.
    [[nodiscard]] std::size_t seen_below(const Entry& entry) const {
        std::size_t seen = entry.children.size();
        for (const std::size_t child : entry.children)
            if (is_open(all_[child])) seen += seen_below(all_[child]);
        return seen;
    }

    [[nodiscard]] std::string text(std::size_t at) const {
        const Entry& entry = all_[at];
        std::string words = at == 0 ? "/Type /Outlines" : fmt::format("{} /Parent {}{}", entry.words, reference(all_[entry.parent].number), neighbours(at));
        if (entry.children.empty()) return "<<" + words + ">>";
        return fmt::format("<<{} /First {} /Last {} /Count {}{}>>", words, reference(all_[entry.children.front()].number), reference(all_[entry.children.back()].number),
                           is_open(entry) ? "" : "-", seen_below(entry));
    }

    [[nodiscard]] std::string neighbours(std::size_t at) const {
        const auto& siblings = all_[all_[at].parent].children;
        std::string words;
        for (std::size_t place = 0; place < siblings.size(); ++place) {
            if (place + 1 < siblings.size() && siblings[place + 1] == at) words += " /Prev " + reference(all_[siblings[place]].number);
            if (place > 0 && siblings[place - 1] == at) words += " /Next " + reference(all_[siblings[place]].number);
        }
        return words;
    }

    const std::vector<frame::Frame>& pages_;
    const std::vector<int>& page_objects_;
    NewObjects& objects_;
    std::vector<Entry> all_{{0, objects_.number(), {}, 0, {}}};
};

}  // namespace

std::optional<int> outline(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, NewObjects& objects) { return Entries(pages, page_objects, objects).write(); }

}  // namespace wayfolio::output
