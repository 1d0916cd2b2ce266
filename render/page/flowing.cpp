#include "page/flowing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr std::size_t unbroken_lines = 4;

std::size_t capacity(const Composer& composer, Paper leading) {
    const Paper room = composer.last_baseline() - composer.y;
    constexpr double slack = 1e-3;
    return room < pt(-slack) ? 0 : static_cast<std::size_t>(std::floor(room / leading + slack)) + 1;
}

}  // namespace

std::size_t lines_here(const Composer& composer, std::size_t lines, Paper leading) {
    const std::size_t room = capacity(composer, leading);
    if (lines <= room) return lines;
    if (lines <= unbroken_lines) return 0;
    const std::size_t here = lines - room == 1 ? room - 1 : room;
    return here < 2 ? 0 : here;
}

std::size_t least_lines(std::size_t lines) { return lines <= unbroken_lines ? lines : 2; }

std::size_t lines_on_next(const Composer& composer, std::size_t lines, Paper leading) {
    return std::max<std::size_t>(1, lines_here(composer, lines, leading));
}

void place_flowing(Composer& composer, const FlowingText& text, Paper left, frame::Role role, const std::function<void(Group)>& add,
          const std::function<void()>& turn) {
    const Paper indent = left - composer.text_left();  // the second of two columns has another left edge
    if (text.size() == 0) composer.y -= text.leading();  // as a paragraph without lines
    std::size_t here = lines_here(composer, text.size(), text.leading());
    for (std::size_t from = 0; from < text.size();) {
        if (here == 0 || from > 0) {
            if (from > 0) composer.y += text.leading();  // a column ends a line below its last, as everything does
            turn();
            here = lines_on_next(composer, text.size() - from, text.leading());
        }
        Placed placed = text.part(from, from + here, {composer.text_left() + indent, composer.y}, role);
        add(std::move(placed.group));
        composer.y = placed.last;
        from += here;
    }
}

}  // namespace wayfolio::page
