#include "service/door/pass_on.hpp"

#include "service/awaiting/awaiting.hpp"

#include <boost/asio/buffer.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/experimental/awaitable_operators.hpp>
#include <boost/asio/generic/seq_packet_protocol.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/local/connect_pair.hpp>
#include <boost/asio/local/stream_protocol.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/ssl/stream.hpp>
#include <boost/asio/write.hpp>

#include <sys/socket.h>

#include <array>
#include <chrono>
#include <cstring>
#include <string>

namespace wayfolio::service {
namespace {

namespace asio = boost::asio;
namespace ssl = boost::asio::ssl;
using asio::ip::tcp;
using boost::system::error_code;
using Inside = asio::local::stream_protocol::socket;
using Tls = ssl::stream<tcp::socket>;
using Control = asio::generic::seq_packet_protocol::socket;
constexpr std::size_t piece = std::size_t{16} << 10;  // a record of TLS

/// @returns what is wrong with the files; "" where nothing is
std::string use(ssl::context& context, const std::string& certificate, const std::string& key) {
    error_code error;
    SSL_CTX_set_min_proto_version(context.native_handle(), TLS1_2_VERSION);
    context.use_certificate_chain_file(certificate, error);
    if (error) return certificate + ": is no certificate in PEM that can be read: " + error.message();
    context.use_private_key_file(key, ssl::context::pem, error);
    if (error) return key + ": is no private key of that certificate in PEM, without a passphrase: " + error.message();
    return "";
}

bool hand_over(int control, Inside& far, const std::string& client) {
    const int socket = far.native_handle();
    std::string text = client;
    iovec words{text.data(), text.size()};
    alignas(cmsghdr) std::array<char, CMSG_SPACE(sizeof(int))> carried{};
    msghdr message{};
    message.msg_iov = &words;
    message.msg_iovlen = 1;
    message.msg_control = carried.data();
    message.msg_controllen = carried.size();
    cmsghdr* const head = CMSG_FIRSTHDR(&message);
    head->cmsg_level = SOL_SOCKET;
    head->cmsg_type = SCM_RIGHTS;
    head->cmsg_len = CMSG_LEN(sizeof socket);
    std::memcpy(CMSG_DATA(head), &socket, sizeof socket);
    return ::sendmsg(control, &message, MSG_NOSIGNAL) > 0;
}

asio::awaitable<error_code> shake_hands(Tls& tls) {
    const auto [error] = co_await tls.async_handshake(ssl::stream_base::server, as_tuple);
    co_return error;
}

/// From the client to the service; what the client ends is ended there.
asio::awaitable<void> pass_in(Tls& tls, Inside& near) {
    std::array<char, piece> bytes;
    for (;;) {
        const auto [error, count] = co_await tls.async_read_some(asio::buffer(bytes), as_tuple);
        if (error) break;
        const auto [failed, put] = co_await asio::async_write(near, asio::buffer(bytes.data(), count), as_tuple);
        if (failed) break;
    }
    error_code none;
    near.shutdown(asio::socket_base::shutdown_send, none);
    asio::steady_timer never(near.get_executor(), asio::steady_timer::time_point::max());
    co_await never.async_wait(as_tuple);
}

/// From the service to the client, until the service has ended the connection.
asio::awaitable<void> pass_out(Inside& near, Tls& tls) {
    std::array<char, piece> bytes;
    for (;;) {
        const auto [error, count] = co_await near.async_read_some(asio::buffer(bytes), as_tuple);
        if (error) co_return;
        const auto [failed, put] = co_await asio::async_write(tls, asio::buffer(bytes.data(), count), as_tuple);
        if (failed) co_return;
    }
}

asio::awaitable<error_code> say_goodbye(Tls& tls) {
    const auto [error] = co_await tls.async_shutdown(as_tuple);
    co_return error;
}

/// The service counts the connection from the beginning, so that its limits hold for those, too, who never end the handshake.
asio::awaitable<void> pass(tcp::socket outside, Inside near, ssl::context& context, std::chrono::seconds patience) {
    using namespace asio::experimental::awaitable_operators;
    Tls tls(std::move(outside), context);
    if (co_await within(std::chrono::steady_clock::now() + patience, shake_hands(tls))) co_return;
    co_await (pass_in(tls, near) || pass_out(near, tls));
    constexpr std::chrono::seconds longest{2};
    (void)co_await within(std::chrono::steady_clock::now() + longest, say_goodbye(tls));
}

asio::awaitable<void> accept_all(tcp::acceptor& acceptor, Control& control, ssl::context& context, std::chrono::seconds patience) {
    for (;;) {
        auto [error, outside] = co_await acceptor.async_accept(as_tuple);
        if (error == asio::error::operation_aborted || error == asio::error::bad_descriptor) co_return;
        error_code failed;
        const tcp::endpoint from = outside.remote_endpoint(failed);
        Inside near(acceptor.get_executor()), far(acceptor.get_executor());
        if (!error && !failed) asio::local::connect_pair(near, far, failed);
        if (error || failed) {  // of one connection, or for want of descriptors: a moment later there may be some
            asio::steady_timer moment(acceptor.get_executor(), std::chrono::milliseconds(50));
            co_await moment.async_wait(as_tuple);
            continue;
        }
        if (!hand_over(control.native_handle(), far, from.address().to_string())) co_return;
        asio::co_spawn(acceptor.get_executor(), pass(std::move(outside), std::move(near), context, patience), asio::detached);
    }
}

/// The server says nothing; it only closes.
asio::awaitable<void> close_with(Control& control, tcp::acceptor& acceptor) {
    co_await control.async_wait(asio::socket_base::wait_read, as_tuple);
    error_code none;
    acceptor.close(none);
}

/// Until the server closes `control` and the last connection has ended.
void pass_all_on(int control, int listening, ssl::context& context, std::chrono::seconds patience) {
    asio::io_context io(1);
    sockaddr_storage place{};
    socklen_t length = sizeof place;
    ::getsockname(listening, reinterpret_cast<sockaddr*>(&place), &length);
    tcp::acceptor acceptor(io, place.ss_family == AF_INET6 ? tcp::v6() : tcp::v4(), listening);
    Control server(io, asio::generic::seq_packet_protocol(AF_UNIX, 0), control);
    asio::co_spawn(io, accept_all(acceptor, server, context, patience), asio::detached);
    asio::co_spawn(io, close_with(server, acceptor), asio::detached);
    io.run();
}

int told(const std::string& failure, char* fault, std::size_t fault_size) {
    fault[failure.copy(fault, fault_size - 1)] = '\0';
    return 1;
}

}  // namespace
}  // namespace wayfolio::service

extern "C" __attribute__((visibility("default"))) int wayfolio_pass_on(int control, int listening, const char* certificate, const char* key,
                                                                       int patience_seconds, void (*opened)(int control), char* fault,
                                                                       std::size_t fault_size) {
    using namespace wayfolio::service;
    try {
        ssl::context context(ssl::context::tls_server);
        if (const std::string failure = use(context, certificate, key); !failure.empty()) return told(failure, fault, fault_size);
        opened(control);
        pass_all_on(control, listening, context, std::chrono::seconds(patience_seconds));
        return 0;
    } catch (const std::exception& failure) { return told(failure.what(), fault, fault_size); }
}
