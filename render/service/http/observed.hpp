#pragma once
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace wayfolio::service {

/// One request and its answer, as the log and the counters know it: nothing of the customer's, not even the path with its query.
struct Exchange {
    std::string request_id, method, route;  ///< the route as the description names it; "" where there is none
    unsigned status = 0;
    std::size_t bytes_in = 0, bytes_out = 0;
    std::chrono::microseconds took{};
};

/// What the server is doing now.
struct Load {
    std::size_t connections = 0, at_work = 0, waiting = 0, workers_ended_early = 0;
};

/// Counts exchanges and writes each as one line of JSON to standard error.
class Observed {
public:
    bool tells = true;  ///< writes lines
    void note(const Exchange& exchange);
    /// Text format of Prometheus, version 0.0.4.
    [[nodiscard]] std::string metrics(const Load& load) const;

private:
    struct Took {
        std::uint64_t count = 0;
        double seconds = 0;
    };
    std::map<std::pair<std::string, unsigned>, Took> by_route_;
    std::uint64_t bytes_in_ = 0, bytes_out_ = 0;
};

}  // namespace wayfolio::service
