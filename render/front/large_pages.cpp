#include "front/process.hpp"

#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>

namespace wayfolio::front {

namespace {

constexpr int room = 64 << 20;               // a large report touches less; what is not touched takes no memory
constexpr std::uintptr_t large_page = 2 << 20;

}  // namespace

// A report is drawn in a fraction of a second and touches thousands of fresh small pages; giving them out one by one took the kernel
// more than a quarter of the time of the whole run. Where large pages are not to be had, everything stays as it was.
void grow_heap_in_large_pages() {
    mallopt(M_ARENA_MAX, 1);  // what the threads of a drawing allocate lies in the large pages, too, and fills what others freed
    mallopt(M_TOP_PAD, room);
    mallopt(M_TRIM_THRESHOLD, 2 * room);
    mallopt(M_MMAP_THRESHOLD, room);
    const auto top = reinterpret_cast<std::uintptr_t>(sbrk(0));
    void* volatile grows_the_heap = ::malloc(large_page);  // volatile: else the pair is optimised away
    ::free(grows_the_heap);
    const auto end = reinterpret_cast<std::uintptr_t>(sbrk(0));
    const std::uintptr_t from = (top + large_page - 1) / large_page * large_page, to = end / large_page * large_page;
    if (from < to) madvise(reinterpret_cast<void*>(from), to - from, MADV_HUGEPAGE);
}

void allocate_apart(std::size_t threads) { mallopt(M_ARENA_MAX, static_cast<int>(threads) + 1); }

}  // namespace wayfolio::front
