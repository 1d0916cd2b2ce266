#include "service/alone/alone.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <thread>

TEST_CASE("a fork waits for threads that are ending") {
    std::atomic<bool> ended = false;
    std::thread([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(300));
        ended = true;
    }).detach();
    wayfolio::service::wait_until_alone();
    CHECK(ended);
}
