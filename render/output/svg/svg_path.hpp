#pragma once
#include <optional>
#include <string>

namespace wayfolio::output {

/// Writes the `d` of an SVG path as short as it goes without losing anything: on a grid, each place as the step from the one before. Steps
/// are between places of the grid, so that their rounding does not add up.
class SvgPath {
public:
    /// @param per_unit lines of the grid in one unit: 1, 10, 100 or 1000
    explicit SvgPath(int per_unit) : per_unit_(per_unit) {}

    void move_to(double x, double y);
    void line_to(double x, double y);
    void curve_to(double x1, double y1, double x2, double y2, double x, double y);
    void close();

    [[nodiscard]] bool empty() const { return text_.empty(); }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    struct Place {
        long long x, y;  ///< lines of the grid
    };
    [[nodiscard]] Place on_grid(double x, double y) const;
    void start();
    void command(char letter);
    void number(long long lines);
    void step(Place from, Place to);

    int per_unit_;
    Place at_{}, start_{};
    std::optional<Place> moved_;  ///< to where a line or a curve would begin; written with it
    char last_ = ' ';            ///< command that numbers alone would repeat
    bool after_number_ = false;
    std::string text_;
};

/// A number of SVG, rounded to a thousandth, in its shortest form.
std::string svg_number(double value);

}  // namespace wayfolio::output
