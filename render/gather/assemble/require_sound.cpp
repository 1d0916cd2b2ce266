#include "gather/assemble/assembly.hpp"

#include "document/read/count_limits.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <set>

namespace wayfolio::gather {
namespace {

/// So many letters of readings are read at a time; a reading takes five to eight, and the values of all that are read fit into a cache.
constexpr std::size_t letters_at_a_time = 100'000;

/// As many values as JSON has there; a list that is one text counts as one.
std::size_t values_in(const Node& node) {
    std::size_t values = 1;
    for (const Node& item : node.items) values += values_in(item);
    return values;
}

/// Values in the lists of readings, each of which is one text.
std::size_t readings_in(const FilledSeries& filled) {
    return filled.runs.size() * (filled.targets.size() - (filled.from->mapping().steps ? 1 : 0));
}

/// The runs of one series that say whether all are sound, of which the document holds a part: of regular runs, which differ in numbers
/// that every document takes, the first of each approach stands for all.
class RunsInParts {
public:
    RunsInParts(Node& runs, std::size_t series, const std::vector<bool>& regular)
        : runs_(runs), all_(std::move(runs.items)), series_(series) {
        std::set<std::string_view> stood_for;
        for (std::size_t run = 0; run < all_.size(); ++run)
            if (run >= regular.size() || !regular[run] || stood_for.insert(all_[run].string("approach")).second) asked_.push_back(run);
        std::size_t letters = 0, first = 0;
        for (std::size_t place = 0; place < asked_.size(); ++place) {
            const Node* const readings = all_[asked_[place]].member("deviations");
            letters += readings == nullptr ? 0 : readings->text.size();
            if (letters < letters_at_a_time) continue;
            parts_.push_back({first, place + 1});
            first = place + 1;
            letters = 0;
        }
        if (first < asked_.size() || parts_.empty()) parts_.push_back({first, asked_.size()});
    }
    RunsInParts(RunsInParts&& other) noexcept = default;
    RunsInParts& operator=(RunsInParts&&) = delete;

    [[nodiscard]] std::size_t parts() const { return parts_.size(); }
    [[nodiscard]] std::size_t series() const { return series_; }
    [[nodiscard]] std::size_t runs() const { return all_.size(); }
    [[nodiscard]] std::size_t values() const {
        std::size_t values = 0;
        for (const Node& run : all_) values += values_in(run);
        return values;
    }

    /// Puts a part into the document; the last one again where there are no more.
    void take(std::size_t part) {
        give_back();
        at_ = std::min(part, parts_.size() - 1);
        for (std::size_t place = parts_[at_].first; place < parts_[at_].second; ++place)
            runs_.items.push_back(std::move(all_[asked_[place]]));
    }
    void take_all() {
        give_back();
        runs_.items = std::move(all_);
    }
    /// Where the run of this part stands among all.
    [[nodiscard]] std::size_t place_of(std::size_t run) const { return asked_[parts_[at_].first + run]; }

private:
    void give_back() {
        for (std::size_t run = 0; run < runs_.items.size(); ++run) all_[place_of(run)] = std::move(runs_.items[run]);
        runs_.items.clear();
    }

    Node& runs_;
    std::vector<Node> all_;
    std::vector<std::size_t> asked_;  ///< places in all_
    std::size_t series_, at_ = 0;
    std::vector<std::pair<std::size_t, std::size_t>> parts_;
};

std::vector<RunsInParts> runs_in_parts(Assembly& assembly) {
    std::vector<RunsInParts> all;
    Node* const series = assembly.document.member("series");
    for (std::size_t place = 0; series != nullptr && place < series->items.size(); ++place) {
        Node* const runs = series->items[place].member("runs");
        if (runs == nullptr || runs->kind != input::JsonKind::Array) continue;
        const auto filled = std::ranges::find(assembly.filled, place, &FilledSeries::place);
        all.emplace_back(*runs, place, filled == assembly.filled.end() ? std::vector<bool>() : filled->regular);
    }
    return all;
}

/// What no part shows: there is too much of it all.
void note_too_many(const Assembly& assembly, const std::vector<RunsInParts>& all, std::vector<input::Problem>& problems) {
    for (const RunsInParts& runs : all)
        if (runs.runs() > document::CountLimits::runs)
            problems.push_back({{}, {0, 0, fmt::format("/series/{}/runs", runs.series())}, fmt::format("an array of {}", runs.runs()),
                                fmt::format("at most {}", document::CountLimits::runs), {}});
    std::size_t values = values_in(assembly.document);
    for (const RunsInParts& runs : all) values += runs.values();
    for (const FilledSeries& filled : assembly.filled) values += readings_in(filled);
    if (values > input::JsonLimits::values)
        problems.push_back({{}, {}, fmt::format("{} values in one document", values), fmt::format("at most {}", input::JsonLimits::values),
                            "gather fewer series, or fewer runs, into one document"});
}

/// Faults name the run among all, not in its part.
void count_among_all(input::Problem& problem, const std::vector<RunsInParts>& all) {
    for (const RunsInParts& runs : all) {
        const std::string front = fmt::format("/series/{}/runs/", runs.series());
        if (!problem.place.pointer.starts_with(front)) continue;
        const std::string_view rest = std::string_view(problem.place.pointer).substr(front.size());
        std::size_t run = 0;
        const auto [end, failure] = std::from_chars(rest.data(), rest.data() + rest.size(), run);
        if (failure != std::errc()) return;
        problem.place.pointer = fmt::format("{}{}{}", front, runs.place_of(run), std::string(end, rest.data() + rest.size()));
        return;
    }
}

bool same_problem(const input::Problem& one, const input::Problem& other) {
    return one.place.pointer == other.place.pointer && one.found == other.found;
}

}  // namespace

void require_sound(Assembly& assembly, const Circumstances& at, const document::SideFileReader& beside) {
    std::vector<RunsInParts> all = runs_in_parts(assembly);
    std::size_t parts = 1;
    for (const RunsInParts& runs : all) parts = std::max(parts, runs.parts());
    const std::string file = at.request.into ? at.request.into->file : "the gathered document";
    std::vector<input::Problem> problems;
    note_too_many(assembly, all, problems);
    if (!problems.empty()) parts = 0;
    for (input::Problem& problem : problems) problem.file = file;
    for (std::size_t part = 0; part < parts; ++part) {
        for (RunsInParts& runs : all) runs.take(part);
        try {
            (void)document::read_document(written(assembly.document), file, beside);
        } catch (const input::InputRejected& rejected) {
            for (input::Problem problem : rejected.problems()) {
                count_among_all(problem, all);
                if (std::ranges::none_of(problems, [&](const input::Problem& one) { return same_problem(one, problem); }))
                    problems.push_back(std::move(problem));
            }
        }
    }
    for (RunsInParts& runs : all) runs.take_all();
    if (!problems.empty()) throw input::InputRejected(at_their_sources(std::move(problems), assembly, at));
}

}  // namespace wayfolio::gather
