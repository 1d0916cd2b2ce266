#pragma once
#include "service/http/observed.hpp"
#include "service/serve.hpp"
#include "service/workers/worker_pool.hpp"

#include <boost/asio/generic/stream_protocol.hpp>
#include <boost/beast/core/basic_stream.hpp>

#include <map>
#include <set>

namespace wayfolio::service {

using Stream = boost::beast::basic_stream<boost::asio::generic::stream_protocol>;

/// What all conversations share; on one thread.
struct Service {
    const Settings& settings;
    WorkerPool& pool;
    Observed observed{};
    std::map<std::string, std::size_t> clients{};  ///< open connections by address
    std::size_t connections = 0;
    std::set<Stream*> idle{};  ///< conversations between two requests
    bool by_network = true;                        ///< not on a Unix socket
    bool closing = false;
    std::uint64_t requests = 0;
};

/// Talks with one client until either has enough. @param client its address; "" on a Unix socket
boost::asio::awaitable<void> converse(Stream stream, Service& service, std::string client);

}  // namespace wayfolio::service
