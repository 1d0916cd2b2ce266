#include "input/share_out.hpp"

#include <catch2/catch.hpp>

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
