#include "output/pdf/packed.hpp"

#include <libdeflate.h>

#include <algorithm>
#include <atomic>
#include <future>
#include <memory>
#include <new>
#include <stdexcept>
#include <thread>

namespace wayfolio::output {

namespace {

template <auto close>
struct Frees {
    template <class Handle>
    void operator()(Handle* handle) const {
        close(handle);
    }
};
using Packer = std::unique_ptr<libdeflate_compressor, Frees<libdeflate_free_compressor>>;
using Unpacker = std::unique_ptr<libdeflate_decompressor, Frees<libdeflate_free_decompressor>>;

}  // namespace

std::string packed(std::string_view bytes, Effort effort) {
    constexpr int usual = 7, more = 8;  // of libdeflate's twelve; 10 takes four times as long for another twentieth of the size
    const Packer packer(libdeflate_alloc_compressor(effort == Effort::Usual ? usual : more));
    if (!packer) throw std::bad_alloc();
    std::string result(libdeflate_zlib_compress_bound(packer.get(), bytes.size()), '\0');
    result.resize(libdeflate_zlib_compress(packer.get(), bytes.data(), bytes.size(), result.data(), result.size()));
    result.shrink_to_fit();  // there was room for bytes that cannot be packed, and pages are kept until the end
    return result;
}

std::string unpacked(std::string_view packed_bytes) {
    const Unpacker unpacker(libdeflate_alloc_decompressor());
    if (!unpacker) throw std::bad_alloc();
    for (std::size_t room = packed_bytes.size() * 8 + 1024;; room *= 2) {
        std::string result(room, '\0');
        std::size_t length = 0;
        const libdeflate_result state =
            libdeflate_zlib_decompress(unpacker.get(), packed_bytes.data(), packed_bytes.size(), result.data(), room, &length);
        if (state == LIBDEFLATE_INSUFFICIENT_SPACE) continue;
        if (state != LIBDEFLATE_SUCCESS) throw std::runtime_error("a stream of the PDF cannot be unpacked");
        result.resize(length);
        return result;
    }
}

void share_out(std::size_t count, text::Threads threads, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next = 0;
    const auto some = [&] {
        for (std::size_t mine; (mine = next++) < count;) work(mine);
    };
    constexpr std::size_t most_helpers = 3;  // more find nothing left to do in a report
    const std::size_t processors = std::max(1U, std::thread::hardware_concurrency()),
                      helpers = threads == text::Threads::One ? 0 : std::min({count / 2, processors - 1, most_helpers});
    std::vector<std::future<void>> others(helpers);
    for (auto& other : others) other = std::async(std::launch::async, some);
    some();
    for (auto& other : others) other.get();
}

void pack(const std::vector<Packed*>& all, text::Threads threads) {
    share_out(all.size(), threads, [&](std::size_t i) {
        if (all[i]->pack) all[i]->bytes = packed(all[i]->bytes);
    });
}

}  // namespace wayfolio::output
