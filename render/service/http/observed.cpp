#include "service/http/observed.hpp"

#include "service/log/log.hpp"
#include "units/version.hpp"

#include <fmt/format.h>

namespace wayfolio::service {

void Observed::note(const Exchange& exchange) {
    const double seconds = std::chrono::duration<double>(exchange.took).count();
    Took& took = by_route_[{exchange.route, exchange.status}];
    ++took.count;
    took.seconds += seconds;
    bytes_in_ += exchange.bytes_in;
    bytes_out_ += exchange.bytes_out;
    if (!tells) return;
    log_line({{"request", exchange.request_id},
              {"method", exchange.method},
              {"route", exchange.route},
              {"status", exchange.status},
              {"bytes_in", exchange.bytes_in},
              {"bytes_out", exchange.bytes_out},
              {"ms", static_cast<double>(exchange.took.count()) / 1000}});
}

std::string Observed::metrics(const Load& load) const {
    std::string text = fmt::format(
        "# HELP wayfolio_build_info Version of the program.\n# TYPE wayfolio_build_info gauge\n"
        "wayfolio_build_info{{version=\"{}\"}} 1\n",
        version());
    const auto gauge = [&](std::string_view name, std::string_view help, std::size_t value) {
        text += fmt::format("# HELP wayfolio_{0} {1}\n# TYPE wayfolio_{0} gauge\nwayfolio_{0} {2}\n", name, help, value);
    };
    gauge("connections", "Open connections.", load.connections);
    gauge("jobs_at_work", "Jobs that a worker has.", load.at_work);
    gauge("jobs_waiting", "Jobs that wait for a worker.", load.waiting);
    const auto counter = [&](std::string_view name, std::string_view help, std::uint64_t value) {
        text += fmt::format("# HELP wayfolio_{0} {1}\n# TYPE wayfolio_{0} counter\nwayfolio_{0} {2}\n", name, help, value);
    };
    counter("workers_ended_early_total", "Workers that ended with their job: turned away from, late, or at fault.",
            load.workers_ended_early);
    counter("received_bytes_total", "Bytes of bodies that came.", bytes_in_);
    counter("sent_bytes_total", "Bytes of bodies that went.", bytes_out_);
    text += "# HELP wayfolio_request_seconds Requests and the time that they took.\n# TYPE wayfolio_request_seconds summary\n";
    for (const auto& [key, took] : by_route_) {
        const std::string labels = fmt::format("{{route=\"{}\",status=\"{}\"}}", key.first, key.second);
        text +=
            fmt::format("wayfolio_request_seconds_sum{0} {1}\nwayfolio_request_seconds_count{0} {2}\n", labels, took.seconds, took.count);
    }
    return text;
}

}  // namespace wayfolio::service
