#pragma once
#include "evaluate/written/json_text.hpp"
#include "service/batches/desk.hpp"

#include <optional>
#include <string>
#include <string_view>

/// Progress as Server-Sent Events (HTML, 9.2): "job" with the line of a job that ended, by the number of its end; "ended" when all are,
/// with the counts of the batch.
namespace wayfolio::service {

constexpr std::size_t most_events = 1'000'000'000;

std::string events_text(const Outcomes& outcomes, const evaluate::Json& counts);

/// The number of the last event in a text; nothing where it has none.
std::optional<std::int64_t> last_number(std::string_view events);
/// Whether a text has the event after which nothing comes.
bool is_last(std::string_view events);

}  // namespace wayfolio::service
