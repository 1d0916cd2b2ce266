#pragma once
#include <array>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>

namespace wayfolio::evaluate {

/// Things that another thread goes through, in their order, while this one makes the next. Where no other thread is wanted, or to be had,
/// this one does both. A few things are held, and filled again and again.
template <class Thing>
class Beside {
public:
    /// @param take what the other thread does with each
    Beside(bool other_thread, std::function<void(const Thing&)> take) : take_(std::move(take)) {
        if (!other_thread) return;
        try {
            other_ = std::jthread([this](const std::stop_token& stop) { take_all(stop); });
        } catch (const std::system_error&) {
            // No more threads are to be had.
        }
    }

    /// One that may be filled; it waits for it.
    Thing& next() {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [this] { return given_ < taken_ + things_.size(); });
        return things_[given_ % things_.size()];
    }
    /// Hands the one of next() over. This thread may go on reading it until it asks for the next.
    void give() {
        {
            const std::lock_guard lock(mutex_);
            ++given_;
        }
        if (other_.joinable()) changed_.notify_all();
        else take_one();
    }
    /// Waits until all are gone through. @throws what was thrown there
    void finish() {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [this] { return taken_ == given_; });
        if (failure_) std::rethrow_exception(failure_);
    }

private:
    void take_all(const std::stop_token& stop) {
        while (true) {
            {
                std::unique_lock lock(mutex_);
                if (!changed_.wait(lock, stop, [this] { return taken_ < given_; })) return;
            }
            take_one();
        }
    }
    /// Only who takes changes taken_.
    void take_one() {
        try {
            if (!failure_) take_(things_[taken_ % things_.size()]);
        } catch (...) {
            failure_ = std::current_exception();
        }
        const std::lock_guard lock(mutex_);
        ++taken_;
        changed_.notify_all();
    }

    std::function<void(const Thing&)> take_;
    std::array<Thing, 3> things_;
    std::size_t given_ = 0, taken_ = 0;
    std::exception_ptr failure_;
    std::mutex mutex_;
    std::condition_variable_any changed_;
    std::jthread other_;  ///< last: it ends before all that it uses
};

}  // namespace wayfolio::evaluate
