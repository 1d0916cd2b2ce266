#pragma once
#include <cstddef>
#include <functional>

namespace wayfolio::input {

/// Does the work for 0 up to `count`, on up to so many processors beside each other, each once and in no order; on one processor in order
/// and without another thread. Where the system gives no more threads, fewer do it. Where pieces of work throw, all others are done first.
/// @param processors 0 counts as 1, as std::thread::hardware_concurrency() means it
/// @throws what the first of the pieces that throw throws, by their number: the same on every machine
void share_out(std::size_t count, std::size_t processors, const std::function<void(std::size_t)>& work);

}  // namespace wayfolio::input
