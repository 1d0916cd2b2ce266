#pragma once
#include <algorithm>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace wayfolio::document {

/// Makes things on several threads, and hands them on one by one in their order, on the thread that asked. What is handed on, and what is
/// thrown, is the same with any number of threads. A few things are held, and filled again and again.
template <class Thing>
class InOrder {
public:
    using Make = std::function<void(std::size_t number, Thing& into)>;  ///< called by several threads at once
    using Take = std::function<bool(Thing&)>;                           ///< @returns whether to go on

    /// @param threads that make things, the caller's among them: it makes one where it would have to wait
    static void run(std::size_t count, std::size_t threads, Make make, const Take& take) {
        InOrder(count, threads, std::move(make)).hand_on(take);
    }

private:
    struct Slot {
        Thing thing{};
        bool made = false;
        std::exception_ptr failure{};
    };

    InOrder(std::size_t count, std::size_t threads, Make make)
        : count_(count), make_(std::move(make)), slots_(std::min(count, threads == 1 ? 1 : 2 * threads)) {
        try {
            for (std::size_t other = 1; other < std::min(count, threads); ++other)
                others_.emplace_back([this](const std::stop_token& stop) { help(stop); });
        } catch (const std::system_error&) {
            // No more threads are to be had: those that there are do it.
        }
    }

    void hand_on(const Take& take) {
        for (std::size_t number = 0; number < count_; ++number) {
            Slot& slot = slots_[number % slots_.size()];
            wait_for(slot);
            if (slot.failure) std::rethrow_exception(slot.failure);
            if (!take(slot.thing)) return;
            const std::lock_guard lock(mutex_);
            slot.made = false;
            ++taken_;
            changed_.notify_all();
        }
    }

    void wait_for(const Slot& slot) {
        std::unique_lock lock(mutex_);
        while (!slot.made)
            if (may_begin()) make_next(lock);
            else changed_.wait(lock);
    }
    void help(const std::stop_token& stop) {
        std::unique_lock lock(mutex_);
        while (changed_.wait(lock, stop, [this] { return may_begin() || begun_ == count_; }) && begun_ < count_ && !stop.stop_requested())
            make_next(lock);
    }
    [[nodiscard]] bool may_begin() const { return begun_ < count_ && begun_ < taken_ + slots_.size(); }

    void make_next(std::unique_lock<std::mutex>& lock) {
        const std::size_t number = begun_++;
        Slot& slot = slots_[number % slots_.size()];
        lock.unlock();
        try {
            make_(number, slot.thing);
        } catch (...) {
            slot.failure = std::current_exception();
        }
        lock.lock();
        slot.made = true;
        changed_.notify_all();
    }

    std::size_t count_;
    Make make_;
    std::vector<Slot> slots_;  ///< that of a thing lies at its number modulo their count
    std::size_t begun_ = 0, taken_ = 0;
    std::mutex mutex_;  ///< of the counts and of whether a slot is made
    std::condition_variable_any changed_;
    std::vector<std::jthread> others_;  ///< last: they end before all that they use
};

}  // namespace wayfolio::document
