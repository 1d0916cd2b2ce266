#include "report/blocks/plots/plots.hpp"

#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

struct ReadOver {
    const document::Series* series;
    double from, to;
};

std::vector<ReadOver> spans(const document::Document& document, const RecordClock& clock) {
    std::vector<ReadOver> all;
    for (const document::Series& series : document.series) {
        std::optional<double> from, to;
        for (const document::Run& run : series.runs) {
            if (const auto start = clock.minutes(run.started)) from = std::min(from.value_or(*start), *start);
            if (const auto end = clock.minutes(run.ended)) to = std::max(to.value_or(*end), *end);
        }
        if (from && to && *to > *from) all.push_back({&series, *from, *to});
    }
    return all;
}

std::string errors_of(const std::vector<const document::Series*>& series) {
    constexpr std::size_t most_named = 2;
    if (series.size() > most_named) return count_word(series.size()) + " series";
    std::vector<std::string> names;
    for (const auto* one : series) names.push_back(one->error.text());
    return listed(names);
}

}  // namespace

std::vector<RunLane> run_lanes(const document::Document& document, const RecordClock& clock) {
    std::vector<RunLane> lanes;
    for (const document::Series& series : document.series) {
        document::ByApproach<std::size_t> read;
        for (const document::Run& run : series.runs) {
            const std::size_t number = ++read[run.approach];
            const auto from = clock.minutes(run.started), to = clock.minutes(run.ended);
            if (!from || !to || !(*to > *from)) continue;
            const auto same = [&](const RunLane& lane) { return lane.from == *from && lane.to == *to; };
            if (std::ranges::none_of(lanes, same)) lanes.push_back({*from, *to, run.approach, std::to_string(number)});
        }
    }
    std::ranges::stable_sort(lanes, {}, &RunLane::from);
    return lanes;
}

std::vector<Session> sessions(const document::Document& document, const RecordClock& clock) {
    struct Together {
        double from, to;
        std::vector<const document::Series*> series;
    };
    const std::vector<ReadOver> all = spans(document, clock);
    std::vector<Together> found;
    for (const ReadOver& read : all) {
        const auto same = std::ranges::find_if(
            found, [&](const Together& t) { return t.from == read.from && t.to == read.to && t.series[0]->state == read.series->state; });
        if (same == found.end()) found.push_back({read.from, read.to, {read.series}});
        else same->series.push_back(read.series);
    }
    std::ranges::stable_sort(found, {}, &Together::from);
    const bool states = std::ranges::any_of(all, [&](const ReadOver& read) { return read.series->state != all[0].series->state; });
    std::vector<Session> made;
    for (const Together& together : found) {
        const std::string& state = together.series[0]->state;
        const bool whole_state = std::ranges::count_if(all, [&](const ReadOver& read) { return read.series->state == state; }) ==
                                 static_cast<long>(together.series.size());
        const std::string errors = errors_of(together.series);
        made.push_back({together.from, together.to,
                        states && whole_state ? state_words(state)
                        : states              ? errors + state_suffix(state)
                                              : errors});
    }
    return made;
}

}  // namespace wayfolio::report
