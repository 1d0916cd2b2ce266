#include "output/pdf/destinations.hpp"

#include "frame/bounds.hpp"
#include "output/pdf/object_texts.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace wayfolio::output {

namespace {

class Anchors {
public:
    explicit Anchors(const std::vector<frame::Frame>& pages) : pages_(pages) {
        for (std::size_t page = 0; page < pages.size(); ++page) collect(pages[page].items, page);
    }
    std::map<std::string, Destination> found;

private:
    void collect(const std::vector<frame::Item>& items, std::size_t page) {
        for (const frame::Item& item : items) {
            const auto* group = std::get_if<frame::Group>(&item);
            if (!group) continue;
            if (!group->anchor.empty()) add(*group, page);
            collect(group->items, page);
        }
    }

    void add(const frame::Group& group, std::size_t page) {
        const frame::Rect covered = (group.box ? group.box : frame::bounds(group.items)).value_or(frame::Rect{});
        if (!found.emplace(group.anchor, destination_at(pages_, page, {covered.left, covered.top})).second)
            throw std::logic_error("two groups have the anchor \"" + group.anchor + "\"");
    }

    const std::vector<frame::Frame>& pages_;
};

}  // namespace

std::map<std::string, Destination> destinations_of(const std::vector<frame::Frame>& pages) { return Anchors(pages).found; }

Destination destination_at(const std::vector<frame::Frame>& pages, std::size_t page, frame::Point point) {
    return {page, point.x, pages[page].height - point.y};
}

std::string in_words(const Destination& destination, const std::vector<int>& page_objects) {
    return fmt::format("[{} /XYZ {:.2f} {:.2f} 0]", reference(page_objects.at(destination.page)), destination.left.in(units::point), destination.above_bottom.in(units::point));
}

}  // namespace wayfolio::output
