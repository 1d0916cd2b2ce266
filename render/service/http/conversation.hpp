#pragma once
#include "service/batches/batch_runner.hpp"
#include "service/http/observed.hpp"
#include "service/serve.hpp"
#include "service/workers/worker_pool.hpp"

#include <boost/asio/generic/stream_protocol.hpp>
#include <boost/beast/core/basic_stream.hpp>

#include <map>
#include <set>
#include <utility>

namespace wayfolio::service {

using Stream = boost::beast::basic_stream<boost::asio::generic::stream_protocol>;

/// What all conversations share; on one thread.
struct Service {
    const Settings& settings;
    WorkerPool& pool;
    WorkerPool* keepers = nullptr;  ///< who may write records; none where none are kept
    BatchRunner* batches = nullptr;
    Observed observed{};
    std::map<std::string, std::size_t> clients{};  ///< open connections by address
    std::size_t connections = 0;
    std::size_t held_bytes = 0;  ///< of bodies that are being read or answered
    std::set<Stream*> idle{};    ///< conversations between two requests
    bool by_network = true;      ///< not on a Unix socket
    bool closing = false;
    std::uint64_t requests = 0;
};

/// What one request takes of the bytes that all may hold.
class HeldBytes {
public:
    explicit HeldBytes(Service& service) : service_(&service) {}
    ~HeldBytes() { let_go(); }
    HeldBytes(HeldBytes&& other) noexcept : service_(std::exchange(other.service_, nullptr)), count_(other.count_) {}
    HeldBytes& operator=(HeldBytes&&) = delete;
    /// Whether there is room for that many; then they are held.
    [[nodiscard]] bool grow_to(std::size_t count) {
        if (service_->held_bytes - count_ + count > service_->settings.limits.body_bytes_in_all) return false;
        service_->held_bytes += count - count_;
        count_ = count;
        return true;
    }

private:
    void let_go() {
        if (service_ != nullptr) service_->held_bytes -= count_;
    }
    Service* service_;
    std::size_t count_ = 0;
};

/// Talks with one client until either has enough. @param client its address; "" on a Unix socket
boost::asio::awaitable<void> converse(Stream stream, Service& service, std::string client);

}  // namespace wayfolio::service
