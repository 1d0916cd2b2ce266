#pragma once
#include "service/batches/desk.hpp"
#include "service/workers/worker_pool.hpp"

#include <cstdint>
#include <string>

namespace wayfolio::service {

/// Has the jobs of batches drawn, one after the other in the order in which they came, while the service answers others. On its thread.
class BatchRunner {
public:
    /// @param clerks, drawers of a file that is held (HeldDesk)
    BatchRunner(boost::asio::io_context& context, const Workshop& clerks, const Workshop& drawers);
    BatchRunner(const BatchRunner&) = delete;
    BatchRunner& operator=(const BatchRunner&) = delete;

    /// Draws until it is closed.
    void start();
    /// Nothing more is begun; what is at work ends.
    void close();

    /// Answers what clients ask of batches. May be cancelled.
    boost::asio::awaitable<Answer> answer(const Request& request);

    /// Changes so far; news() ends at once where there were some since.
    [[nodiscard]] std::uint64_t changes() const { return changes_; }
    /// Ends when a job has ended, or a batch came or went. May be cancelled.
    boost::asio::awaitable<void> news(std::uint64_t since);

    [[nodiscard]] const WorkerPool& drawing() const { return drawers_; }

private:
    boost::asio::awaitable<void> draw_jobs();
    boost::asio::awaitable<void> draw_one();
    boost::asio::awaitable<void> give_up(const std::string& claim, const char* errand, const std::string& reason);
    void changed();

    boost::asio::io_context& context_;
    Limits limits_;
    WorkerPool clerks_, drawers_;
    boost::asio::steady_timer change_;
    std::uint64_t changes_ = 0, claims_ = 0;
    bool closing_ = false;
};

}  // namespace wayfolio::service
