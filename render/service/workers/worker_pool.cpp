#include "service/workers/worker_pool.hpp"

#include "service/answers/problem.hpp"
#include "service/workers/wire.hpp"

#include <boost/asio/buffer.hpp>
#include <boost/asio/read.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>

#include <algorithm>
#include <optional>

namespace wayfolio::service {

namespace asio = boost::asio;
using boost::system::error_code;

/// A worker at work for one job. Unless it is given back, it did not finish, and is ended.
class WorkerPool::Lease {
public:
    Lease(WorkerPool& pool, HandPointer hand) : pool_(pool), hand_(std::move(hand)) { ++pool_.at_work_; }
    ~Lease() {
        --pool_.at_work_;
        if (hand_) pool_.replace(std::move(hand_));
    }
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;
    Hand& hand() { return *hand_; }
    void give_back() { pool_.give_back(std::move(hand_)); }

private:
    WorkerPool& pool_;
    HandPointer hand_;
};

/// A place in the line, until the job has its worker or turns away.
class WorkerPool::PlaceInLine {
public:
    explicit PlaceInLine(WorkerPool& pool) : pool_(pool), place_{asio::steady_timer(pool.context_, asio::steady_timer::time_point::max())} {
        pool_.line_.push_back(&place_);
    }
    ~PlaceInLine() {
        std::erase(pool_.line_, &place_);
        if (place_.hand) pool_.hand_on(std::move(place_.hand));
    }
    PlaceInLine(const PlaceInLine&) = delete;
    PlaceInLine& operator=(const PlaceInLine&) = delete;
    Place& place() { return place_; }

private:
    WorkerPool& pool_;
    Place place_;
};

WorkerPool::WorkerPool(asio::io_context& context, const Workshop& workshop) : context_(context), workshop_(workshop) {
    for (std::size_t i = 0; i < workshop.limits.workers; ++i) idle_.push_back(new_hand());
}

WorkerPool::~WorkerPool() {
    for (const HandPointer& hand : idle_) end_worker(hand->worker);
}

WorkerPool::HandPointer WorkerPool::new_hand() {
    context_.notify_fork(asio::io_context::fork_prepare);
    const Worker worker = begin_worker(workshop_);
    context_.notify_fork(asio::io_context::fork_parent);
    return std::make_unique<Hand>(
        Hand{worker, asio::local::stream_protocol::socket(context_, asio::local::stream_protocol(), worker.socket)});
}

void WorkerPool::hand_on(HandPointer hand) {
    if (line_.empty()) {
        idle_.push_back(std::move(hand));
        return;
    }
    Place* const first = line_.front();
    line_.pop_front();
    first->hand = std::move(hand);
    first->turn.cancel();
}

void WorkerPool::give_back(HandPointer hand) {
    if (++hand->jobs < workshop_.limits.jobs_of_one_worker) return hand_on(std::move(hand));
    end_worker(hand->worker);
    hand_on(new_hand());
}

void WorkerPool::replace(HandPointer hand) {
    end_worker(hand->worker);
    ++ended_early_;
    hand_on(new_hand());
}

asio::awaitable<WorkerPool::HandPointer> WorkerPool::take() {
    if (!idle_.empty()) {
        HandPointer hand = std::move(idle_.back());
        idle_.pop_back();
        co_return hand;
    }
    if (line_.size() >= workshop_.limits.waiting) throw Refused(problems::busy, "");
    PlaceInLine in_line(*this);
    error_code woken;  // always: by its turn, or by who turns away
    co_await in_line.place().turn.async_wait(asio::redirect_error(asio::use_awaitable, woken));
    if (!in_line.place().hand) throw boost::system::system_error(asio::error::operation_aborted);
    co_return std::move(in_line.place().hand);
}

asio::awaitable<Answer> WorkerPool::exchange(Hand& hand, const Request& request) {
    const std::string sent = to_wire(request);
    co_await asio::async_write(hand.socket, asio::buffer(sent), asio::use_awaitable);
    WireLength length = 0;
    co_await asio::async_read(hand.socket, asio::buffer(&length, sizeof length), asio::use_awaitable);
    std::string bytes(length, '\0');
    co_await asio::async_read(hand.socket, asio::buffer(bytes), asio::use_awaitable);
    auto answer = answer_from_wire(bytes);
    if (!answer) throw boost::system::system_error(asio::error::eof);
    co_return std::move(*answer);
}

asio::awaitable<Answer> WorkerPool::answer(const Request& request) {
    try {
        Lease lease(*this, co_await take());
        Answer answer = co_await exchange(lease.hand(), request);
        lease.give_back();
        co_return answer;
    } catch (const Refused& refused) {
        co_return problem(refused.kind(), refused.what());
    } catch (const boost::system::system_error& error) {
        if (error.code() == asio::error::operation_aborted) throw;
        // It closed its socket: it ran out of memory where nothing can be thrown, or it has a fault.
        co_return problem(problems::failed, "the worker ended on this request; another one took its place");
    }
}

}  // namespace wayfolio::service
