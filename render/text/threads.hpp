#pragma once
#include <future>

namespace wayfolio::text {

/// How many threads one drawing may take: one where every processor has a drawing of its own, as in a batch.
enum class Threads { One, Several };

/// What needs not be waited for begins at once where there may be several threads, else when it is asked for.
inline std::launch launched(Threads threads) { return threads == Threads::One ? std::launch::deferred : std::launch::async; }

}  // namespace wayfolio::text
