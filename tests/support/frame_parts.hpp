#pragma once
#include "frame/dump.hpp"
#include "support/frame_checks.hpp"

#include <algorithm>
#include <functional>
#include <stdexcept>

/// Parts of pages and figures, and dumps of them that do not change with the program's version.
namespace wayfolio::testing {

inline void collect_groups(const std::vector<frame::Item>& items, const std::function<bool(const frame::Group&)>& wanted,
                           std::vector<const frame::Group*>& found) {
    for (const frame::Item& item : items) {
        const auto* group = std::get_if<frame::Group>(&item);
        if (!group) continue;
        if (wanted(*group)) found.push_back(group);
        collect_groups(group->items, wanted, found);
    }
}

/// Every group that is `wanted`, in reading order.
inline std::vector<const frame::Group*> groups_where(const std::vector<frame::Item>& items,
                                                     const std::function<bool(const frame::Group&)>& wanted) {
    std::vector<const frame::Group*> found;
    collect_groups(items, wanted, found);
    return found;
}

inline std::vector<const frame::Group*> figures_in(const std::vector<frame::Item>& items) {
    return groups_where(items, [](const frame::Group& group) { return group.role == frame::Role::Figure; });
}

/// The one group with this id. @throws std::runtime_error for none or several
inline const frame::Group& group_of(const std::vector<frame::Item>& items, const std::string& id) {
    const auto found = groups_where(items, [&](const frame::Group& group) { return group.id == id; });
    if (found.size() != 1) throw std::runtime_error(std::to_string(found.size()) + " groups are called " + id);
    return *found.front();
}

/// Takes out the groups that name program and fingerprint, which depend on every byte that went in: tests of their own hold them.
inline void erase_fingerprints(std::vector<frame::Item>& items) {
    std::erase_if(items, [](frame::Item& item) {
        auto* group = std::get_if<frame::Group>(&item);
        if (!group) return false;
        if (words_of(group->items).find("fingerprint") == std::string::npos) return false;
        if (std::ranges::any_of(group->items,
                                [](const frame::Item& part) { return std::holds_alternative<frame::GlyphRun>(part); }))
            return true;
        erase_fingerprints(group->items);
        return false;
    });
}

/// A figure that stands in a dump of its own leaves its head line.
inline void empty_figures(std::vector<frame::Item>& items) {
    for (frame::Item& item : items) {
        auto* group = std::get_if<frame::Group>(&item);
        if (!group) continue;
        if (group->role == frame::Role::Figure)
            group->items.clear();
        else
            empty_figures(group->items);
    }
}

enum class Figures { Whole, HeadLines };

inline std::string dump_of(frame::Frame frame, Figures figures = Figures::Whole) {
    erase_fingerprints(frame.items);
    if (figures == Figures::HeadLines) empty_figures(frame.items);
    return frame::dump(frame);
}

inline std::string dump_of(const std::vector<frame::Frame>& pages, Figures figures) {
    std::string text;
    for (const frame::Frame& page : pages) text += dump_of(page, figures);
    return text;
}

/// The figures alone, where a block draws what no file of its own holds.
inline std::string dump_of_figures(const std::vector<frame::Frame>& pages, const std::string& id) {
    for (frame::Frame page : pages)
        for (const frame::Group* figure : figures_in(page.items))
            if (figure->id == id) {
                frame::Group alone = *figure;
                page.items = {std::move(alone)};
                return frame::dump(page);
            }
    throw std::runtime_error("no page shows a figure called " + id);
}

}  // namespace wayfolio::testing
