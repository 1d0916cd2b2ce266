#include "service/log/log.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <ctime>
#include <string>

namespace wayfolio::service {
namespace {

/// A log is no result: it says when.
std::string now() {
    const auto time = std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
    const auto seconds = std::chrono::floor<std::chrono::seconds>(time);
    return fmt::format("{:%FT%T}.{:03}Z", fmt::gmtime(std::chrono::system_clock::to_time_t(seconds)), (time - seconds).count());
}

}  // namespace

void log_line(const evaluate::Json& members) {
    evaluate::Json line{{"at", now()}};
    for (const auto& [key, value] : members.items()) line[key] = value;
    const std::string text = evaluate::to_line(line) + "\n";
    std::fwrite(text.data(), 1, text.size(), stderr);
}

void log_event(std::string_view event, std::string_view detail) { log_line({{"event", event}, {"detail", detail}}); }

}  // namespace wayfolio::service
