#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/problem.hpp"

#include "evaluate/written/json_text.hpp"
#include "plan/plan_words.hpp"
#include "plan/sheet.hpp"

#include <fmt/format.h>

#include <charconv>

namespace wayfolio::service {
namespace {

/// Words with commas between; none of them empty.
std::vector<std::string> listed(const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        words.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return words;
}

std::optional<double> real_in(const Call& call, std::string_view option) {
    const std::string& text = call.option(option);
    if (text.empty()) return std::nullopt;
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size())
        throw Refused(problems::unknown_option, fmt::format("found {} for {}; expected a number", text, option));
    return number;
}

plan::PlanRequest request_in(const Call& call) {
    constexpr std::size_t most = 1'000'000;
    plan::PlanWords words{.errors = listed(call.option("errors")), .states = listed(call.option("states"))};
    words.travel = call.option("travel");
    words.unit = call.option("unit");
    words.runs = number_in(call, "runs", most);
    if (!call.option("targets").empty()) words.targets = number_in(call, "targets", most);
    words.seed = number_in(call, "seed", most);
    words.feed = real_in(call, "feed");
    words.dwell = real_in(call, "dwell");
    words.one_approach_first = call.option("order") != "alternating";
    try {
        return plan::request_of(words);
    } catch (const plan::WordsRefused& refused) { throw Refused(problems::unknown_option, refused.what()); }
}

}  // namespace

Answer planned(const Call& call, const Workshop& workshop) {
    plan::PlanRequest request = request_in(call);
    const auto beside = [&](const std::string& logo) { return file_in(call.files.side_files, logo); };
    for (const auto& [name, bytes] : call.files.facts) request.facts.push_back({name, name, bytes, beside});
    const plan::Planned made = plan::plan(request);
    if (call.option("format") == "pdf")
        return tagged(call.request, {200, "application/pdf",
                                     plan::sheet_pdf(made, layouts::read_layout("report", call.option("paper")), workshop.shaper), ""});
    const evaluate::Json json{{"document", made.document}, {"account", plan::plan_text(made)}};
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

}  // namespace wayfolio::service
