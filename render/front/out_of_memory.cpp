#include "front/process.hpp"

#include <sys/mman.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <exception>
#include <new>
#include <string_view>

namespace wayfolio::front {

namespace {

/// The heap of a thread is taken from the system in 128 MiB, of which half is given back (glibc, HEAP_MAX_SIZE): what another thread could
/// not have for that moment is there again when this is asked.
constexpr std::size_t little = std::size_t{256} << 20;

/// Where the signals below are handled: a stack that cannot grow any more, which is one of the ways memory runs out in, has no room for it.
alignas(16) std::array<std::byte, 64 << 10> stack_for_signals;

extern "C" void end_by_signal(int signal) {
    if (memory_is_used_up()) _exit(static_cast<int>(out_of_memory()));
    std::signal(signal, SIG_DFL);
    std::raise(signal);  // comes when this handler has ended
}

[[noreturn]] void end_by_exception() {
    try {
        if (const std::exception_ptr thrown = std::current_exception()) std::rethrow_exception(thrown);
    } catch (const std::bad_alloc&) {
        _exit(static_cast<int>(out_of_memory()));
    } catch (...) {  // a fault of this program, which the core file shall show
    }
    std::abort();
}

}  // namespace

bool memory_is_used_up() {
    void* const more = mmap(nullptr, little, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    if (more == MAP_FAILED) return true;
    munmap(more, little);
    return false;
}

ExitCode out_of_memory() {
    constexpr std::string_view line = "wayfolio: there is not enough memory for this; nothing was written\n";
    [[maybe_unused]] const ssize_t ignored = ::write(STDERR_FILENO, line.data(), line.size());  // needs no memory itself
    return ExitCode::OutOfMemory;
}

void end_plainly_without_memory() {
    std::set_terminate(end_by_exception);
    stack_t stack{};
    stack.ss_sp = stack_for_signals.data();
    stack.ss_size = stack_for_signals.size();
    sigaltstack(&stack, nullptr);
    struct sigaction action {};
    action.sa_handler = end_by_signal;
    action.sa_flags = SA_ONSTACK;
    for (const int signal : {SIGABRT, SIGTRAP, SIGSEGV}) sigaction(signal, &action, nullptr);
}

}  // namespace wayfolio::front
