#pragma once
#include "frame/frame.hpp"

#include <optional>

namespace wayfolio::frame {

/// Smallest rectangle that holds both.
Rect joined(const Rect& one, const Rect& other);

/// What a run covers: its advance by its ascent and descent, turned when the run is turned.
Rect bounds(const GlyphRun& run);
/// What a path covers: its points and control points, grown by half the stroke. Nothing for a path without points.
std::optional<Rect> bounds(const Path& path);
/// What an item covers: of a group all that it holds, each part cut by the clips around it. Nothing for an empty group or a bookmark.
std::optional<Rect> bounds(const Item& item);
std::optional<Rect> bounds(const std::vector<Item>& items);

}  // namespace wayfolio::frame
