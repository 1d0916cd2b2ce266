#include "input/share_out.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <future>
#include <system_error>
#include <vector>

namespace wayfolio::input {

void share_out(std::size_t count, std::size_t processors, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next = 0;
    std::vector<std::exception_ptr> failures(count);
    const auto some = [&] {
        for (std::size_t mine; (mine = next++) < count;) {
            try {
                work(mine);
            } catch (...) {
                failures[mine] = std::current_exception();
            }
        }
    };
    constexpr std::size_t most_helpers = 3;  // more find nothing left to do in a report
    const std::size_t helpers = std::min({count / 2, std::max<std::size_t>(processors, 1) - 1, most_helpers});
    std::vector<std::future<void>> others;
    try {
        while (others.size() < helpers) others.push_back(std::async(std::launch::async, some));
    } catch (const std::system_error&) {
        // No more threads are to be had: those that there are do it.
    }
    some();
    for (auto& other : others) other.get();
    const auto first = std::ranges::find_if(failures, [](const std::exception_ptr& failure) { return failure != nullptr; });
    if (first != failures.end()) std::rethrow_exception(*first);
}

}  // namespace wayfolio::input
