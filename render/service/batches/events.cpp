#include "service/batches/events.hpp"

#include <fmt/format.h>

#include <charconv>

namespace wayfolio::service {
namespace {

constexpr std::string_view number_mark = "\nid: ", end_mark = "\nevent: ended\n";

}  // namespace

std::string events_text(const Outcomes& outcomes, const evaluate::Json& counts) {
    std::string text = ":";  // a comment: a client that waits sees that the line is open
    for (const auto& [number, line] : outcomes.lines) text += fmt::format("\n{}{}\nevent: job\ndata: {}", number_mark, number, line);
    if (outcomes.all) text += fmt::format("\n{}data: {}", end_mark, evaluate::to_line(counts));
    return text + "\n\n";
}

std::optional<std::int64_t> last_number(std::string_view events) {
    const std::size_t at = events.rfind(number_mark);
    std::int64_t number = 0;
    if (at == std::string_view::npos) return std::nullopt;
    events.remove_prefix(at + number_mark.size());
    std::from_chars(events.data(), events.data() + events.size(), number);
    return number;
}

bool is_last(std::string_view events) { return events.find(end_mark) != std::string_view::npos; }

}  // namespace wayfolio::service
