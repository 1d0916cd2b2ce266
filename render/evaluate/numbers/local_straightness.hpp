#pragma once
#include <optional>
#include <span>

/// Straightness over every window of one length along a profile, exact for straight lines between its points.
namespace wayfolio::evaluate {

/// A window of a profile and its straightness, in the profile's own units.
struct Window {
    double from, to, value;
};

enum class WindowLine { EndPoint, MinimumZone };

/// The window of `length` with the largest straightness, each window about a line of its own: its end-point chord, or its minimum
/// zone. Nothing if the profile is shorter than the window. Of equal windows the first counts.
/// @param x rising and distinct; y as long as x; at least two points
std::optional<Window> largest_window(std::span<const double> x, std::span<const double> y, double length, WindowLine line);

}  // namespace wayfolio::evaluate
