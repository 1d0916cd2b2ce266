#include "service/serve.hpp"

#include "service/awaiting/awaiting.hpp"
#include "service/batches/batch_runner.hpp"
#include "service/batches/held_desk.hpp"
#include "service/door/door.hpp"
#include "service/http/conversation.hpp"
#include "service/log/log.hpp"

#include <fmt/format.h>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/generic/seq_packet_protocol.hpp>
#include <boost/asio/signal_set.hpp>

#include <sys/socket.h>
#include <sys/stat.h>

#include <optional>
#include <system_error>
#include <type_traits>

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

/// Where connections come in that the door has taken TLS off.
using Arrivals = asio::generic::seq_packet_protocol::socket;

/// @throws std::system_error where the door has ended
asio::awaitable<void> accept_all(Arrivals& arrivals, Service& service) {
    using Generic = asio::generic::stream_protocol;
    for (;;) {
        const auto [error] = co_await arrivals.async_wait(asio::socket_base::wait_read, as_tuple);
        if (error) co_return;
        std::optional<Arrived> arrived = arrived_at(arrivals.native_handle());
        if (!arrived) continue;
        Generic::socket socket(arrivals.get_executor(), Generic(AF_UNIX, 0), arrived->socket);
        asio::co_spawn(arrivals.get_executor(), converse(Stream(std::move(socket)), service, std::move(arrived->client)), asio::detached);
    }
}

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

/// Of a socket that was opened by somebody else. @throws CannotServe where it does not listen
int family_of(int socket) {
    int listens = 0;
    socklen_t size = sizeof listens;
    sockaddr_storage place{};
    socklen_t length = sizeof place;
    const bool is_socket = ::getsockopt(socket, SOL_SOCKET, SO_ACCEPTCONN, &listens, &size) == 0 &&
                           ::getsockname(socket, reinterpret_cast<sockaddr*>(&place), &length) == 0;
    if (!is_socket || listens == 0) throw CannotServe("what was handed over is no listening socket");
    return place.ss_family;
}

void require_token(const asio::ip::address& address, const Settings& settings) {
    if (settings.token.empty() && !address.is_loopback())
        throw CannotServe(
            fmt::format("{} is reached by other machines: give --token-file, a file with what clients have to show", address.to_string()));
}

std::string address_words(std::string_view scheme, const tcp::endpoint& place) {
    const bool v6 = place.address().is_v6();
    return fmt::format("{}://{}{}{}:{}", scheme, v6 ? "[" : "", place.address().to_string(), v6 ? "]" : "", place.port());
}

tcp::acceptor open_port(asio::io_context& context, const Settings& settings) {
    error_code error;
    const auto address = asio::ip::make_address(settings.address, error);
    if (error) throw CannotServe(fmt::format("{} is no IP address", settings.address));
    require_token(address, settings);
    try {
        return {context, tcp::endpoint(address, settings.port)};
    } catch (const boost::system::system_error& failed) {
        throw CannotServe(fmt::format("{} port {}: {}; --listen ADDRESS:PORT chooses another, port 0 any that is free", settings.address,
                                      settings.port, failed.code().message()));
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
    if (service.observed.tells) log_event("closing", fmt::format("{} connections are open", service.connections));
    service.closing = true;
    if (service.batches != nullptr) service.batches->close();
    error_code none;
    acceptor.close(none);
    for (Stream* const idle : service.idle) idle->cancel();
}

void tell_place(const Settings& settings, const std::string& place) {
    if (settings.opened) settings.opened(place);
    else log_event("listening", place);
}

/// Until a signal. Workers are begun here, when all is open that could fail to.
template <class Acceptor>
void run(asio::io_context& context, Acceptor acceptor, const Settings& settings, const text::Shaper& shaper) {
    const Workshop workshop{.shaper = shaper,
                            .limits = settings.limits,
                            .previewed = settings.previewed,
                            .samples = settings.samples,
                            .offers = {!settings.records.empty(), !settings.batches.empty()}};
    WorkerPool pool(context, workshop);
    Workshop archive{shaper, settings.limits};
    std::optional<WorkerPool> keepers;
    if (!settings.records.empty()) {
        archive.shelf = Shelf{settings.records, settings.index};
        keepers.emplace(context, archive);
    }
    std::optional<BatchRunner> batches;
    Workshop clerks{.shaper = shaper, .limits = settings.limits, .batches = settings.batches}, drawers = clerks;
    clerks.limits.workers = 1;
    clerks.limits.waiting = settings.limits.connections;  // what they do is short, and all who listen ask when a job has ended
    drawers.in_background = true;
    if (!settings.batches.empty()) batches.emplace(context, clerks, drawers);
    Service service{settings, pool, keepers ? &*keepers : nullptr, batches ? &*batches : nullptr};
    service.observed.tells = !settings.opened;
    service.by_network = !std::is_same_v<Acceptor, Local::acceptor>;
    const auto rethrow = [](std::exception_ptr thrown) {
        if (thrown) std::rethrow_exception(thrown);
    };
    asio::co_spawn(context, accept_all(acceptor, service), rethrow);
    if (batches) batches->start();
    asio::co_spawn(context, close_on_signal(acceptor, service), asio::detached);
    context.run();
    if (service.observed.tells) log_event("closed", "");
}

/// Of an address and port. @throws CannotServe
void serve_port(asio::io_context& context, const Settings& settings, const text::Shaper& shaper, int family) {
    tcp::acceptor acceptor = family == AF_UNSPEC ? open_port(context, settings)
                                                 : tcp::acceptor(context, family == AF_INET6 ? tcp::v6() : tcp::v4(), settings.inherited);
    require_token(acceptor.local_endpoint().address(), settings);
    if (!settings.tls.given()) {
        tell_place(settings, address_words("http", acceptor.local_endpoint()));
        return run(context, std::move(acceptor), settings, shaper);
    }
    const tcp::endpoint place = acceptor.local_endpoint();
    const int door = open_door(acceptor.release(), settings.tls, settings.limits);
    tell_place(settings, address_words("https", place));
    try {
        run(context, Arrivals(context, asio::generic::seq_packet_protocol(AF_UNIX, 0), door), settings, shaper);
    } catch (const std::system_error&) { throw CannotServe("the process that takes off TLS has ended"); }
}

}  // namespace

void serve(const Settings& settings, const text::Shaper& shaper) {
    (void)shaper.width(" ", {});  // opens the fonts, which every worker then has
    std::optional<HeldDesk> desk;  // before anybody is told that this service is there
    if (!settings.batches.empty()) desk.emplace(settings.batches);
    asio::io_context context(1);
    const int family = settings.inherited < 0 ? AF_UNSPEC : family_of(settings.inherited);
    if (family != AF_UNIX && settings.socket.empty()) return serve_port(context, settings, shaper, family);
    if (settings.tls.given()) throw CannotServe("on a Unix socket no TLS is spoken");
    Local::acceptor acceptor = family == AF_UNIX ? Local::acceptor(context, Local(), settings.inherited) : open_socket(context, settings);
    tell_place(settings, "unix:" + acceptor.local_endpoint().path());
    run(context, std::move(acceptor), settings, shaper);
    std::error_code none;
    if (family != AF_UNIX) std::filesystem::remove(settings.socket, none);
}

}  // namespace wayfolio::service
