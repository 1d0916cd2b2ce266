#include "output/packed.hpp"

#include <zlib.h>

#include <algorithm>
#include <atomic>
#include <future>
#include <stdexcept>
#include <thread>

namespace wayfolio::output {

namespace {

std::string packed(const std::string& bytes) {
    uLongf length = compressBound(bytes.size());
    std::string result(length, '\0');
    if (compress(reinterpret_cast<Bytef*>(result.data()), &length, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()) != Z_OK)
        throw std::runtime_error("zlib could not pack a stream of the PDF");
    result.resize(length);
    return result;
}

}  // namespace

void pack(const std::vector<Packed*>& all) {
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t mine; (mine = next++) < all.size();)
            if (all[mine]->pack) all[mine]->bytes = packed(all[mine]->bytes);
    };
    constexpr std::size_t most_helpers = 3;  // more find nothing left to pack in a report
    const std::size_t processors = std::max(1U, std::thread::hardware_concurrency()), helpers = std::min({all.size() / 2, processors - 1, most_helpers});
    std::vector<std::future<void>> others(helpers);
    for (auto& other : others) other = std::async(std::launch::async, work);
    work();
    for (auto& other : others) other.get();
}

}  // namespace wayfolio::output
