#include "input/share_out.hpp"

#include <catch2/catch.hpp>

#include <pthread.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

using namespace wayfolio;

TEST_CASE("work that is shared out is done once each, however many do it") {
    const std::size_t processors = GENERATE(0, 1, 2, 3, 64), count = GENERATE(0, 1, 2, 3, 100);
    std::vector<int> done(count);
    input::share_out(count, processors, [&](std::size_t i) { ++done[i]; });
    CHECK(done == std::vector<int>(count, 1));
}

TEST_CASE("of pieces of work that throw the first is told, when all others are done, however many do it") {
    const std::size_t processors = GENERATE(1, 2, 4);
    std::atomic<int> done = 0;
    const auto work = [&](std::size_t i) {
        ++done;
        if (i == 17 || i == 5 || i == 30) throw std::runtime_error("piece " + std::to_string(i));
    };
    CHECK_THROWS_WITH(input::share_out(31, processors, work), "piece 5");
    CHECK(done == 31);
}

TEST_CASE("one processor does all in order and in its own thread") {
    const std::thread::id mine = std::this_thread::get_id();
    std::vector<std::size_t> order;
    input::share_out(4, 1, [&](std::size_t i) {
        CHECK(std::this_thread::get_id() == mine);
        order.push_back(i);
    });
    CHECK(order == std::vector<std::size_t>{0, 1, 2, 3});
}

namespace {

/// How a process ends that shares out ten pieces where no thread can have its stack: with the number of pieces that were done, or 100 if
/// a thread could be had all the same.
int done_without_threads() {
    const pid_t child = fork();
    if (child == 0) {
        pthread_attr_t attributes;
        pthread_attr_init(&attributes);
        pthread_attr_setstacksize(&attributes, std::size_t{1} << 47);  // all the addresses that a process has
        pthread_setattr_default_np(&attributes);
        pthread_t thread{};
        if (pthread_create(&thread, nullptr, [](void* none) { return none; }, nullptr) == 0) _exit(100);
        std::atomic<int> done = 0;
        input::share_out(10, 4, [&](std::size_t) { ++done; });
        _exit(done);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

TEST_CASE("where the system gives no threads, the one that asks does all") { CHECK(done_without_threads() == 10); }
