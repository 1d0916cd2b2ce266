#include "service/serve.hpp"

#include "service/http/awaiting.hpp"
#include "service/http/conversation.hpp"

#include <fmt/format.h>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/signal_set.hpp>

#include <sys/stat.h>

namespace wayfolio::service {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;
using Local = asio::local::stream_protocol;

std::string client_of(const tcp::socket& socket) {
    error_code gone;
    const tcp::endpoint from = socket.remote_endpoint(gone);
    return gone ? std::string("?") : from.address().to_string();
}

std::string client_of(const Local::socket&) { return {}; }

template <class Acceptor>
asio::awaitable<void> accept_all(Acceptor& acceptor, Service& service) {
    for (;;) {
        auto [error, socket] = co_await acceptor.async_accept(as_tuple);
        if (error == asio::error::operation_aborted) co_return;
        if (error) {  // of one connection, or for want of descriptors: a moment later there may be some
            asio::steady_timer moment(acceptor.get_executor(), std::chrono::milliseconds(50));
            co_await moment.async_wait(as_tuple);
            continue;
        }
        std::string client = client_of(socket);
        asio::co_spawn(acceptor.get_executor(), converse(Stream(std::move(socket)), service, std::move(client)), asio::detached);
    }
}

tcp::acceptor open_port(asio::io_context& context, const Settings& settings) {
    try {
        const tcp::endpoint place(asio::ip::make_address(settings.address), settings.port);
        tcp::acceptor acceptor(context, place);
        log_event("listening", fmt::format("http://{}{}{}:{}", place.address().is_v6() ? "[" : "", settings.address,
                                           place.address().is_v6() ? "]" : "", acceptor.local_endpoint().port()));
        return acceptor;
    } catch (const boost::system::system_error& error) {
        throw CannotServe(fmt::format("{} port {}: {}", settings.address, settings.port, error.code().message()));
    }
}

/// A socket that another server left behind is in the way of this one; anything else of that name is not touched.
void remove_left_socket(const std::filesystem::path& path, asio::io_context& context) {
    struct stat there {};
    if (::stat(path.c_str(), &there) != 0 || !S_ISSOCK(there.st_mode)) return;
    Local::socket probe(context);
    error_code answers;
    probe.connect(Local::endpoint(path.string()), answers);
    if (answers == asio::error::connection_refused) std::filesystem::remove(path);
}

Local::acceptor open_socket(asio::io_context& context, const Settings& settings) {
    try {
        remove_left_socket(settings.socket, context);
        const mode_t before = ::umask(0117);  // its owner and group
        Local::acceptor acceptor(context, Local::endpoint(settings.socket.string()));
        ::umask(before);
        log_event("listening", "unix:" + settings.socket.string());
        return acceptor;
    } catch (const boost::system::system_error& error) {
        throw CannotServe(fmt::format("{}: {}", settings.socket.string(), error.code().message()));
    }
}

/// After a signal: no more connections, none that waits for a request; what is at work ends.
template <class Acceptor>
asio::awaitable<void> close_on_signal(Acceptor& acceptor, Service& service) {
    asio::signal_set signals(acceptor.get_executor(), SIGTERM, SIGINT);
    co_await signals.async_wait(as_tuple);
    log_event("closing", fmt::format("{} connections are open", service.connections));
    service.closing = true;
    error_code none;
    acceptor.close(none);
    for (Stream* const idle : service.idle) idle->cancel();
}

template <class Acceptor>
void run(asio::io_context& context, Acceptor acceptor, Service& service) {
    asio::co_spawn(context, accept_all(acceptor, service), asio::detached);
    asio::co_spawn(context, close_on_signal(acceptor, service), asio::detached);
    context.run();
    log_event("closed", "");
}

}  // namespace

bool is_loopback(const std::string& address) {
    error_code error;
    const auto read = asio::ip::make_address(address, error);
    if (error) throw CannotServe(fmt::format("{} is no IP address", address));
    return read.is_loopback();
}

void serve(const Settings& settings, const text::Shaper& shaper) {
    asio::io_context context(1);
    const Workshop workshop{shaper, settings.limits};
    WorkerPool pool(context, workshop);
    Service service{settings, pool};
    if (settings.socket.empty()) {
        run(context, open_port(context, settings), service);
    } else {
        run(context, open_socket(context, settings), service);
        std::error_code none;
        std::filesystem::remove(settings.socket, none);
    }
}

}  // namespace wayfolio::service
