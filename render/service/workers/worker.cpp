#include "service/workers/worker.hpp"

#include "service/alone/alone.hpp"
#include "service/workers/wire.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <system_error>

namespace wayfolio::service {
namespace {

constexpr int background = 10;  // of 19 (nice(1)): by choice

[[noreturn]] void fail(const char* call) { throw std::system_error(errno, std::generic_category(), call); }

bool read_all(int socket, char* to, std::size_t count) {
    while (count > 0) {
        const ssize_t got = ::read(socket, to, count);
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return false;
        to += got;
        count -= static_cast<std::size_t>(got);
    }
    return true;
}

bool write_all(int socket, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t put = ::write(socket, bytes.data(), bytes.size());
        if (put < 0 && errno == EINTR) continue;
        if (put <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(put));
    }
    return true;
}

void limit(int what, rlim_t most) {
    const rlimit limits{most, most};
    if (setrlimit(static_cast<__rlimit_resource>(what), &limits) != 0) fail("setrlimit");
}

/// What a worker cannot do from now on. Files are read (fonts, layouts, a library that draws logos); none is ever written but by those
/// who keep records or batches.
void give_up_rights(const Limits& limits, bool keeps) {
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) fail("prctl");
    limit(RLIMIT_CORE, 0);
    limit(RLIMIT_FSIZE, keeps ? limits.kept_file : 0);
#ifndef __SANITIZE_ADDRESS__  // it maps terabytes of address space
    limit(RLIMIT_AS, limits.worker_memory);
#endif
}

/// Closes whatever the server has open, but for the streams and this worker's socket.
void keep_only(int socket) {
    if (dup2(socket, STDERR_FILENO + 1) < 0) fail("dup2");
    if (close_range(STDERR_FILENO + 2, ~0U, 0) != 0) fail("close_range");
}

void own_signals() {
    for (const int one : {SIGHUP, SIGCHLD}) std::signal(one, SIG_DFL);
    // A terminal tells its whole group, systemd the whole unit: the server says when it is over, and answers first what is at work.
    for (const int one : {SIGINT, SIGTERM}) std::signal(one, SIG_IGN);
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);  // writing beyond what may be kept fails, and that is told
}

void answer_all(int socket, const Workshop& workshop) {
    for (WireLength length = 0; read_all(socket, reinterpret_cast<char*>(&length), sizeof length);) {
        std::string bytes(length, '\0');
        if (!read_all(socket, bytes.data(), bytes.size())) return;
        const auto request = request_from_wire(bytes);
        if (!request || !write_all(socket, to_wire(answer_to(*request, workshop)))) return;
        workshop.shaper.let_go_of_old_lines();
    }
}

[[noreturn]] void be_worker(int socket, int server, const Workshop& workshop) {
    try {
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        if (getppid() == server) {  // else it ended before it could be told of
            own_signals();
            keep_only(socket);
            give_up_rights(workshop.limits, workshop.shelf.has_value() || !workshop.batches.empty());
            if (workshop.in_background) setpriority(PRIO_PROCESS, 0, background);
            answer_all(STDERR_FILENO + 1, workshop);
        }
    } catch (...) {  // nobody is above; the server sees that the socket is closed
        _exit(1);
    }
    _exit(0);
}

}  // namespace

Worker begin_worker(const Workshop& workshop) {
    std::array<int, 2> ends{};
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) fail("socketpair");
    wait_until_alone();
    const pid_t server = getpid(), process = fork();
    if (process < 0) {
        const int error = errno;
        ::close(ends[0]);
        ::close(ends[1]);
        throw std::system_error(error, std::generic_category(), "fork");
    }
    if (process == 0) be_worker(ends[1], server, workshop);
    ::close(ends[1]);
    return {process, ends[0]};
}

void end_worker(const Worker& worker) {
    ::kill(worker.process, SIGKILL);
    while (waitpid(worker.process, nullptr, 0) < 0 && errno == EINTR) {}
}

}  // namespace wayfolio::service
