#include "output/pdf/navigation.hpp"

#include "frame/bounds.hpp"
#include "frame/walk.hpp"
#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace wayfolio::output {

namespace {

class Anchors {
public:
    explicit Anchors(const std::vector<frame::Frame>& pages) : pages_(pages) {
        for (std::size_t page = 0; page < pages.size(); ++page)
            frame::walk(pages[page].items, [&](const frame::Group& group) {
                if (!group.anchor.empty()) add(group, page);
            });
    }
    std::map<std::string, Destination> found;

private:
    void add(const frame::Group& group, std::size_t page) {
        const frame::Rect covered = (group.box ? group.box.value() : frame::bounds(group.items)).value_or(frame::Rect{});
        if (!found.emplace(group.anchor, destination_at(pages_, page, {covered.left, covered.top})).second)
            throw std::logic_error("two groups have the anchor \"" + group.anchor + "\"");
    }

    const std::vector<frame::Frame>& pages_;
};

/// An entry of the outline; the first of all is the root, which has neither title nor place.
struct Entry {
    int level, number;
    std::string words;                 ///< title and destination
    std::size_t parent;
    std::vector<std::size_t> children;
};

class Entries {
public:
    Entries(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, Objects& objects)
        : pages_(pages), page_objects_(page_objects), objects_(objects) {
        for (std::size_t page = 0; page < pages.size(); ++page)
            frame::walk(pages[page].items, [&](const frame::Bookmark& bookmark) { add(bookmark, page); });
    }

    std::optional<int> write() {
        if (all_.size() == 1) return std::nullopt;
        for (std::size_t i = 0; i < all_.size(); ++i) objects_.put(all_[i].number, text(i));
        return all_[0].number;
    }

private:
    /// Belongs under the last one that is further out.
    void add(const frame::Bookmark& bookmark, std::size_t page) {
        std::size_t parent = all_.size() - 1;
        while (all_[parent].level >= bookmark.level) parent = all_[parent].parent;
        all_[parent].children.push_back(all_.size());
        const Destination place = destination_at(pages_, page, bookmark.at);
        std::string words = fmt::format("/Title {} /Dest {}", text_string(bookmark.title), in_words(place, page_objects_));
        all_.push_back({bookmark.level, objects_.number(), std::move(words), parent, {}});
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
        std::string words =
            at == 0 ? "/Type /Outlines" : fmt::format("{} /Parent {}{}", entry.words, reference(all_[entry.parent].number), neighbours(at));
        if (entry.children.empty()) return "<<" + words + ">>";
        return fmt::format("<<{} /First {} /Last {} /Count {}{}>>", words, reference(all_[entry.children.front()].number),
                           reference(all_[entry.children.back()].number), is_open(entry) ? "" : "-", seen_below(entry));
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
    Objects& objects_;
    std::vector<Entry> all_{{0, objects_.number(), {}, 0, {}}};
};

}  // namespace

std::map<std::string, Destination> destinations_of(const std::vector<frame::Frame>& pages) { return Anchors(pages).found; }

Destination destination_at(const std::vector<frame::Frame>& pages, std::size_t page, frame::Point point) {
    return {page, point.x, pages[page].height - point.y};
}

std::string in_words(const Destination& destination, const std::vector<int>& page_objects) {
    return fmt::format("[{} /XYZ {:.2f} {:.2f} 0]", reference(page_objects.at(destination.page)), destination.left.in(units::point),
                       destination.above_bottom.in(units::point));
}

std::optional<int> outline(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, Objects& objects) {
    return Entries(pages, page_objects, objects).write();
}

}  // namespace wayfolio::output
