#include "service/alone/alone.hpp"

#include <chrono>
#include <filesystem>
#include <iterator>
#include <system_error>
#include <thread>

namespace wayfolio::service {
namespace {

std::size_t threads_of_this_process() {
    std::error_code none;
    std::filesystem::directory_iterator tasks("/proc/self/task", none);
    return static_cast<std::size_t>(std::distance(begin(tasks), end(tasks)));
}

}  // namespace

void wait_until_alone() {
    constexpr int most = 5000;
    constexpr std::chrono::milliseconds moment{1};
    for (int i = 0; i < most && threads_of_this_process() > 1; ++i) std::this_thread::sleep_for(moment);
}

}  // namespace wayfolio::service
