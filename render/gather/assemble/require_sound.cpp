#include "gather/assemble/assembly.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace wayfolio::gather {
namespace {

/// So many letters of readings are read at a time; a reading takes five to eight, and the values of all that are read fit into a cache.
constexpr std::size_t letters_at_a_time = 100'000;

/// The runs of one series, of which the document holds a part.
class RunsInParts {
public:
    RunsInParts(Node& runs, std::size_t series) : runs_(runs), all_(std::move(runs.items)), series_(series) {
        std::size_t letters = 0, first = 0;
        for (std::size_t run = 0; run < all_.size(); ++run) {
            const Node* const readings = all_[run].member("deviations");
            letters += readings == nullptr ? 0 : readings->text.size();
            if (letters < letters_at_a_time) continue;
            parts_.push_back({first, run + 1});
            first = run + 1;
            letters = 0;
        }
        if (first < all_.size() || parts_.empty()) parts_.push_back({first, all_.size()});
    }
    RunsInParts(RunsInParts&& other) noexcept = default;
    RunsInParts& operator=(RunsInParts&&) = delete;

    [[nodiscard]] std::size_t parts() const { return parts_.size(); }
    [[nodiscard]] std::size_t series() const { return series_; }

    /// Puts a part into the document; the last one again where there are no more.
    void take(std::size_t part) {
        give_back();
        at_ = std::min(part, parts_.size() - 1);
        const auto from = all_.begin() + static_cast<std::ptrdiff_t>(parts_[at_].first),
                   to = all_.begin() + static_cast<std::ptrdiff_t>(parts_[at_].second);
        runs_.items.assign(std::make_move_iterator(from), std::make_move_iterator(to));
    }
    void take_all() {
        give_back();
        runs_.items = std::move(all_);
    }
    /// Where the run of this part stands among all.
    [[nodiscard]] std::size_t place_of(std::size_t run) const { return parts_[at_].first + run; }

private:
    void give_back() {
        std::ranges::move(runs_.items, all_.begin() + static_cast<std::ptrdiff_t>(parts_[at_].first));
        runs_.items.clear();
    }

    Node& runs_;
    std::vector<Node> all_;
    std::size_t series_, at_ = 0;
    std::vector<std::pair<std::size_t, std::size_t>> parts_;
};

std::vector<RunsInParts> runs_in_parts(Node& document) {
    std::vector<RunsInParts> all;
    Node* const series = document.member("series");
    for (std::size_t place = 0; series != nullptr && place < series->items.size(); ++place)
        if (Node* const runs = series->items[place].member("runs"); runs != nullptr && runs->kind == input::JsonKind::Array)
            all.emplace_back(*runs, place);
    return all;
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
    std::vector<RunsInParts> all = runs_in_parts(assembly.document);
    std::size_t parts = 1;
    for (const RunsInParts& runs : all) parts = std::max(parts, runs.parts());
    std::vector<input::Problem> problems;
    for (std::size_t part = 0; part < parts; ++part) {
        for (RunsInParts& runs : all) runs.take(part);
        try {
            (void)document::read_document(written(assembly.document), at.request.into ? at.request.into->file : "the gathered document",
                                          beside);
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
