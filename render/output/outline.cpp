#include "output/outline.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::output {

void Outline::add(const std::vector<frame::Item>& items, int page) {
    for (const frame::Item& item : items) {
        if (const auto* bookmark = std::get_if<frame::Bookmark>(&item)) add(*bookmark, page);
        if (const auto* group = std::get_if<frame::Group>(&item)) add(group->items, page);
    }
}

void Outline::add(const frame::Bookmark& bookmark, int page) {
    while (!open_.empty() && open_.back().level >= bookmark.level) open_.pop_back();
    const int parent = open_.empty() ? CAIRO_PDF_OUTLINE_ROOT : open_.back().id;
    // Whole points: Cairo reads attribute numbers in the current locale.
    const std::string place = fmt::format("page={} pos=[{:.0f} {:.0f}]", page, std::floor(bookmark.at.x.in(units::point)),
                                          std::floor(bookmark.at.y.in(units::point)));
    const auto flags = bookmark.level == 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : cairo_pdf_outline_flags_t{};
    const int id = cairo_pdf_surface_add_outline(surface_, parent, bookmark.title.c_str(), place.c_str(), flags);
    open_.push_back({bookmark.level, id});
}

}  // namespace wayfolio::output
