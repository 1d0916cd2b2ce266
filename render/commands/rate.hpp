#pragma once
#include <chrono>
#include <cstddef>
#include <string>

namespace wayfolio::commands {

/// How fast many things are done; only ever shown on a terminal.
class Rate {
public:
    /// "3.2 a second, about 4 min left"
    [[nodiscard]] std::string words(std::size_t done, std::size_t of) const;

private:
    std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
};

}  // namespace wayfolio::commands
