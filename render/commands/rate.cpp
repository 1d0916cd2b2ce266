#include "commands/rate.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::commands {

std::string Rate::words(std::size_t done, std::size_t of) const {
    constexpr double least = 1e-3, minute = 60, long_time = 90;
    const double took = std::max(least, std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count());
    const double rate = static_cast<double>(done) / took, left = static_cast<double>(of - done) / std::max(least, rate);
    return fmt::format("{:.1f} a second, about {:.0f} {} left", rate, left > long_time ? left / minute : left,
                       left > long_time ? "min" : "s");
}

}  // namespace wayfolio::commands
