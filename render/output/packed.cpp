#include "output/packed.hpp"

#include <zlib.h>

#include <algorithm>
#include <atomic>
#include <future>
#include <stdexcept>
#include <thread>

namespace wayfolio::output {

std::string packed(std::string_view bytes) {
    uLongf length = compressBound(bytes.size());
    std::string result(length, '\0');
    if (compress(reinterpret_cast<Bytef*>(result.data()), &length, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()) != Z_OK)
        throw std::runtime_error("zlib could not pack a stream of the PDF");
    result.resize(length);
    return result;
}

std::string unpacked(std::string_view packed_bytes) {
    for (std::size_t room = packed_bytes.size() * 8 + 1024;; room *= 2) {
        std::string result(room, '\0');
        uLongf length = room;
        const int state = uncompress(reinterpret_cast<Bytef*>(result.data()), &length, reinterpret_cast<const Bytef*>(packed_bytes.data()), packed_bytes.size());
        if (state == Z_BUF_ERROR && length == room) continue;  // more than there is room for
        if (state != Z_OK) throw std::runtime_error("zlib could not unpack a stream of the PDF");
        result.resize(length);
        return result;
    }
}

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
