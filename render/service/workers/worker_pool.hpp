#pragma once
#include "service/workers/worker.hpp"

#include <boost/asio/awaitable.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/local/stream_protocol.hpp>
#include <boost/asio/steady_timer.hpp>

#include <deque>
#include <memory>
#include <vector>

namespace wayfolio::service {

/// The workers, and the line of jobs before them. A job whose caller turns away ends with its worker, for nothing can stop a drawing
/// half-way; another worker takes its place.
class WorkerPool {
public:
    /// @param workshop outlives the pool
    WorkerPool(boost::asio::io_context& context, const Workshop& workshop);
    ~WorkerPool();
    WorkerPool(const WorkerPool&) = delete;
    WorkerPool& operator=(const WorkerPool&) = delete;

    /// The answer of a worker; a problem when the line is full, or when the worker ended on this request. May be cancelled.
    boost::asio::awaitable<Answer> answer(const Request& request);

    [[nodiscard]] std::size_t at_work() const { return at_work_; }
    [[nodiscard]] std::size_t waiting() const { return line_.size(); }
    [[nodiscard]] std::size_t ended_early() const { return ended_early_; }

private:
    struct Hand {
        Worker worker;
        boost::asio::local::stream_protocol::socket socket;
        std::size_t jobs = 0;
    };
    using HandPointer = std::unique_ptr<Hand>;
    struct Place {
        boost::asio::steady_timer turn;
        HandPointer hand{};
    };
    class Lease;
    class PlaceInLine;

    HandPointer new_hand();
    boost::asio::awaitable<HandPointer> take();
    boost::asio::awaitable<Answer> exchange(Hand& hand, const Request& request);
    void give_back(HandPointer hand);
    void replace(HandPointer hand);
    void hand_on(HandPointer hand);

    boost::asio::io_context& context_;
    const Workshop& workshop_;
    std::vector<HandPointer> idle_;
    std::deque<Place*> line_;
    std::size_t at_work_ = 0, ended_early_ = 0;
};

}  // namespace wayfolio::service
