#include "service/door/door.hpp"

#include "input/module_function.hpp"
#include "service/alone/alone.hpp"
#include "service/door/pass_on.hpp"
#include "service/serve.hpp"

#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <system_error>

namespace wayfolio::service {
namespace {

constexpr std::size_t longest_message = 1000;

void give_up_rights() {
    prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
    const rlimit none{0, 0};
    setrlimit(RLIMIT_CORE, &none);  // it would hold the key
    setrlimit(RLIMIT_FSIZE, &none);
}

/// What the door says first: "" when it is open, else why it is not.
void tell(int control, const std::string& message) { ::send(control, message.c_str(), message.size() + 1, MSG_NOSIGNAL); }

[[noreturn]] void be_door(int control, int listening, const TlsFiles& files, const Limits& limits) {
    try {
        // A terminal tells its whole group, systemd the whole unit: the server says when it is over, and answers first what is at work.
        for (const int one : {SIGINT, SIGTERM, SIGPIPE}) std::signal(one, SIG_IGN);
        give_up_rights();
        const input::ModuleFunction module = input::module_function("wayfolio-tls", "wayfolio_pass_on");
        if (module.function == nullptr) {
            tell(control, "TLS cannot be spoken, a library is missing: " + module.failure);
            _exit(1);
        }
        std::array<char, longest_message> fault{};
        const auto opened = [](int server) { tell(server, ""); };
        auto* const pass_on = reinterpret_cast<PassOn*>(module.function);
        if (pass_on(control, listening, files.certificate.c_str(), files.key.c_str(), static_cast<int>(limits.head_time.count()), opened,
                    fault.data(), fault.size()) != 0)
            tell(control, fault.data());
    } catch (...) { _exit(1); }  // nobody is above; the server sees that the socket is closed
    _exit(0);
}

}  // namespace

int open_door(int listening, const TlsFiles& files, const Limits& limits) {
    std::array<int, 2> ends{};
    if (socketpair(AF_UNIX, SOCK_SEQPACKET | SOCK_CLOEXEC, 0, ends.data()) != 0)
        throw std::system_error(errno, std::generic_category(), "socketpair");
    wait_until_alone();
    const pid_t process = fork();
    if (process < 0) throw std::system_error(errno, std::generic_category(), "fork");
    if (process == 0) {
        ::close(ends[0]);
        be_door(ends[1], listening, files, limits);
    }
    ::close(ends[1]);
    ::close(listening);
    std::array<char, longest_message> message{};
    const ssize_t count = ::recv(ends[0], message.data(), message.size() - 1, 0);
    if (count == 1) return ends[0];
    ::close(ends[0]);
    throw CannotServe(count > 0 ? std::string(message.data()) : std::string("the process for TLS ended"));
}

std::optional<Arrived> arrived_at(int door) {
    std::array<char, 128> client{};
    iovec text{client.data(), client.size() - 1};
    alignas(cmsghdr) std::array<char, CMSG_SPACE(sizeof(int))> carried{};
    msghdr message{};
    message.msg_iov = &text;
    message.msg_iovlen = 1;
    message.msg_control = carried.data();
    message.msg_controllen = carried.size();
    const ssize_t count = ::recvmsg(door, &message, MSG_DONTWAIT | MSG_CMSG_CLOEXEC);
    if (count < 0 && (errno == EAGAIN || errno == EWOULDBLOCK || errno == EINTR)) return std::nullopt;
    const cmsghdr* const head = count > 0 ? CMSG_FIRSTHDR(&message) : nullptr;
    if (head == nullptr || head->cmsg_type != SCM_RIGHTS) throw std::system_error(ECONNRESET, std::generic_category(), "the door");
    Arrived arrived{-1, client.data()};
    std::memcpy(&arrived.socket, CMSG_DATA(head), sizeof arrived.socket);
    return arrived;
}

}  // namespace wayfolio::service
