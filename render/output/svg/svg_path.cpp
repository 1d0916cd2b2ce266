#include "output/svg/svg_path.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::output {

std::string svg_number(double value) { return fmt::format("{}", std::round(value * 1000) / 1000 + 0.0); }  // fmt does not ask the locale

SvgPath::Place SvgPath::on_grid(double x, double y) const { return {std::llround(x * per_unit_), std::llround(y * per_unit_)}; }

/// The letter, where numbers alone would not be read as the same command (SVG 1.1, 8.3.1); after a move they are lines.
void SvgPath::command(char letter) {
    if (letter == last_) return;
    text_ += letter;
    last_ = letter == 'm' ? 'l' : letter;
    after_number_ = false;
}

void SvgPath::number(long long lines) {
    std::string digits = fmt::format("{}", std::abs(lines));
    if (per_unit_ > 1) {
        const std::size_t decimals = per_unit_ == 10 ? 1 : per_unit_ == 100 ? 2 : 3;
        if (digits.size() < decimals) digits.insert(0, decimals - digits.size(), '0');
        digits.insert(digits.size() - decimals, 1, '.');
        digits.erase(digits.find_last_not_of('0') + 1);
        if (digits.back() == '.') digits.pop_back();
        if (digits.empty()) digits = "0";
    }
    if (lines < 0) text_ += '-';
    else if (after_number_) text_ += ' ';
    text_ += digits;
    after_number_ = true;
}

void SvgPath::step(Place from, Place to) {
    number(to.x - from.x);
    number(to.y - from.y);
}

void SvgPath::move_to(double x, double y) { moved_ = on_grid(x, y); }

void SvgPath::start() {
    if (!moved_) return;
    command('m');
    step(at_, *moved_);
    at_ = start_ = *moved_;
    moved_.reset();
}

void SvgPath::line_to(double x, double y) {
    start();
    const Place to = on_grid(x, y);
    if (to.y == at_.y) command('h'), number(to.x - at_.x);
    else if (to.x == at_.x) command('v'), number(to.y - at_.y);
    else command('l'), step(at_, to);
    at_ = to;
}

void SvgPath::curve_to(double x1, double y1, double x2, double y2, double x, double y) {
    start();
    const Place to = on_grid(x, y);
    command('c');
    step(at_, on_grid(x1, y1));
    step(at_, on_grid(x2, y2));
    step(at_, to);
    at_ = to;
}

void SvgPath::close() {
    start();
    command('z');
    last_ = ' ';
    at_ = start_;
}

}  // namespace wayfolio::output
