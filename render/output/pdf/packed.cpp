#include "output/pdf/packed.hpp"

#include "input/share_out.hpp"

#include <libdeflate.h>

#include <algorithm>
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
    input::share_out(count, threads == text::Threads::One ? 1 : std::thread::hardware_concurrency(), work);
}

void pack(const std::vector<Packed*>& all, text::Threads threads) {
    share_out(all.size(), threads, [&](std::size_t i) {
        if (all[i]->pack) all[i]->bytes = packed(all[i]->bytes);
    });
}

}  // namespace wayfolio::output
