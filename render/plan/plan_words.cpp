#include "plan/plan_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wayfolio::plan {
namespace {

std::vector<document::ErrorSymbol> errors_of(const PlanWords& words) {
    if (words.errors.empty()) throw WordsRefused("no error given: name what is measured, as EXX for the positioning of X");
    std::vector<document::ErrorSymbol> errors;
    for (const std::string& word : words.errors) {
        const auto symbol = document::error_symbol(word);
        if (!symbol)
            throw WordsRefused(
                fmt::format("{}: no error symbol; EXX is the positioning of X, EYX its straightness in Y, EBX its rotation about Y", word));
        if (!errors.empty() && symbol->axis != errors.front().axis)
            throw WordsRefused(fmt::format("{} is of another axis than {}: one plan is for one axis", word, errors.front().text()));
        for (const auto& before : errors)
            if (before == *symbol) throw WordsRefused(fmt::format("{} is named twice", word));
        errors.push_back(*symbol);
    }
    return errors;
}

std::optional<double> number_in(std::string_view text) {
    double number = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
    // "inf" and "nan" are numbers to it.
    return failure == std::errc() && end == text.data() + text.size() && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

std::optional<Range> range_of(const PlanWords& words, bool rotary) {
    if (words.travel.empty()) return std::nullopt;
    const std::size_t colon = words.travel.find(':');
    const auto from = number_in(std::string_view(words.travel).substr(0, colon));
    const auto to = colon == std::string::npos ? std::nullopt : number_in(std::string_view(words.travel).substr(colon + 1));
    if (!from || !to || *from >= *to) throw WordsRefused(fmt::format("travel {}: write it as FROM:TO, as 0:6400", words.travel));
    const std::string unit = words.unit.empty() ? rotary ? "deg" : "mm" : words.unit;
    if ((unit == "deg") != rotary)
        throw WordsRefused(
            fmt::format("unit {}: {} axes are measured in {}", unit, rotary ? "rotary" : "linear", rotary ? "deg" : "mm or in"));
    return Range{*from, *to, *units::position_unit(unit)};
}

void require_counts(const PlanWords& words) {
    constexpr std::size_t most_runs = 100, most_targets = 1'000;
    if (words.runs < 1 || words.runs > most_runs) throw WordsRefused(fmt::format("runs {}: from 1 to {}", words.runs, most_runs));
    if (words.targets != 0 && (words.targets < 3 || words.targets > most_targets))
        throw WordsRefused(fmt::format("targets {}: from 3 to {}", words.targets, most_targets));
    constexpr double most_feed = 1e6, most_dwell_s = 3600;
    if (words.feed && !(*words.feed >= 1 && *words.feed <= most_feed))
        throw WordsRefused(fmt::format("feed {}: from 1 to {} mm or deg a minute", *words.feed, most_feed));
    if (words.dwell && !(*words.dwell >= 0 && *words.dwell <= most_dwell_s))
        throw WordsRefused(fmt::format("dwell {}: from 0 to {} s", *words.dwell, most_dwell_s));
    std::vector<std::string> states = words.states;
    std::ranges::sort(states);
    if (const auto twice = std::ranges::adjacent_find(states); twice != states.end())
        throw WordsRefused(fmt::format("state {} is named twice", *twice));
}

}  // namespace

PlanRequest request_of(const PlanWords& words) {
    require_counts(words);
    PlanRequest request{.errors = errors_of(words), .runs = words.runs, .seed = words.seed, .states = words.states};
    request.range = range_of(words, request.errors.front().axis_is_rotary());
    if (words.targets != 0) request.targets = words.targets;
    if (words.one_approach_first) request.order = document::RunOrder::OneApproachFirst;
    request.feed = words.feed;
    request.dwell_s = words.dwell;
    return request;
}

}  // namespace wayfolio::plan
