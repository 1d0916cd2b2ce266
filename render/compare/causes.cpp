#include "compare/changes.hpp"

#include "document/read_document.hpp"
#include "input/problem.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::compare {

namespace {

/// Each costs an evaluation.
constexpr std::size_t most_changes = 40;

/// What a job is called, who gave and signed it and when: no result has a part in it, but for what the laboratory may claim.
bool says_nothing_of_results(const Change& change) {
    return change.pointer.starts_with("/job") && !change.pointer.starts_with("/job/laboratory");
}

/// Places among the changes of the documents and then the changes of the readings.
using ChangeSet = std::set<std::size_t>;

/// A result by the id that its series has in the old document.
using ResultKey = std::pair<std::string, std::string>;

struct ResultState {
    std::optional<Deviation> value, expanded;
    std::optional<evaluate::Outcome> outcome;
    [[nodiscard]] bool is(const ResultState& other) const {
        return same_value(value, other.value) && same_value(expanded, other.expanded) && outcome == other.outcome;
    }
};
using Results = std::map<ResultKey, ResultState>;

std::string old_id_of(const Comparison& comparison, const std::string& now) {
    const auto pair = std::ranges::find(comparison.paired_by_error, now, &OtherId::now);
    return pair == comparison.paired_by_error.end() ? now : pair->was;
}

/// Evaluates the old document with some changes made; what was evaluated once is kept.
class Trials {
public:
    Trials(const Side& was, const Side& now, const Comparison& comparison) : was_(was), now_(now), comparison_(comparison) {}

    [[nodiscard]] const Comparison& comparison() const { return comparison_; }
    [[nodiscard]] std::size_t all() const { return comparison_.changes.size() + comparison_.readings.size(); }

    /// Nothing where no such document can be read.
    const std::optional<Results>& with(const ChangeSet& made) {
        const auto known = results_.find(made);
        return known != results_.end() ? known->second : results_.emplace(made, evaluated(made)).first->second;
    }

private:
    [[nodiscard]] std::string side_file(const std::string& name) const {
        for (const Side* side : {&was_, &now_})
            for (const auto& file : side->document.side_files)
                if (file.name == name) return file.bytes;
        throw input::InputMissing(name, "is in neither document");
    }

    [[nodiscard]] input::ByteSource side_file_source(const std::string& name) const {
        for (const Side* side : {&was_, &now_})
            for (const auto& file : side->document.large_side_files)
                if (file.name == name) return file.source;
        return input::source_of(side_file(name));
    }

    [[nodiscard]] std::optional<Results> evaluated(const ChangeSet& made) const {
        TakenOver taken;
        for (const std::size_t change : made) {
            if (change < comparison_.changes.size()) taken.changes.insert(change);
            else taken.readings_of.insert(comparison_.readings[change - comparison_.changes.size()].series);
        }
        try {
            document::Document document = document::read_document(
                with_changes(was_.document.bytes, now_.document.bytes, comparison_.paired_by_error, taken), "old with changes",
                {[this](const std::string& name) { return side_file(name); },
                 [this](const std::string& name) { return side_file_source(name); }});
            // Both take time and say nothing of the results that are held against each other here.
            document.evaluation.monte_carlo.reset();
            document.evaluation.hints = false;
            const evaluate::Evaluation evaluation = evaluate::evaluate(document);
            return results_of({"tried", document, evaluation});
        } catch (const input::InputRejected&) {
            return std::nullopt;
        } catch (const input::InputMissing&) {
            return std::nullopt;
        }
    }

    /// Its results under the names that the comparison has for them.
    [[nodiscard]] Results results_of(const Side& tried) const {
        const Comparison against_old = compare(was_, tried);
        Results results;
        const auto key = [&](const std::string& series, const std::string& parameter) {
            return ResultKey{old_id_of(against_old, series), parameter};
        };
        for (const ParameterChange& change : against_old.parameters)
            results[key(change.series, change.parameter)] = {change.now, change.expanded_now, decided(tried.evaluation, change)};
        return results;
    }

    static std::optional<evaluate::Outcome> decided(const evaluate::Evaluation& evaluation, const ParameterChange& change) {
        const auto& decisions = evaluation.decisions;
        const auto found = std::ranges::find_if(decisions, [&](const evaluate::Decision& decision) {
            const bool same_series = change.from ? decision.axes == change.axes && decision.series == (*change.from)[0]
                                                 : !decision.axes && decision.series == change.series;
            return same_series && !change.at_tool_point && decision.parameter == change.name && decision.length_mm == change.length_mm;
        });
        return found == decisions.end() ? std::nullopt : std::optional(found->outcome);
    }

    const Side &was_, &now_;
    const Comparison& comparison_;
    std::map<ChangeSet, std::optional<Results>> results_;
};

/// Those that move a result when they are made alone, where they make it together what it is now; else none.
std::vector<std::size_t> movers(Trials& trials, const ResultKey& key, const ResultState& before, const ResultState& after) {
    ChangeSet moving;
    for (std::size_t change = 0; change < trials.all(); ++change) {
        if (change < trials.comparison().changes.size() && says_nothing_of_results(trials.comparison().changes[change])) continue;
        const auto& results = trials.with({change});
        if (!results) continue;
        const auto found = results->find(key);
        if (found != results->end() && !found->second.is(before)) moving.insert(change);
    }
    const auto& together = trials.with(moving);
    if (!together) return {};
    const auto made = together->find(key);
    if (made == together->end() || !made->second.is(after)) return {};
    return {moving.begin(), moving.end()};
}

}  // namespace

std::optional<std::vector<Cause>> causes(const Side& was, const Side& now, const Comparison& comparison) {
    Trials trials(was, now, comparison);
    if (!comparison.state_was.empty() || !comparison.state_now.empty() || trials.all() > most_changes) return std::nullopt;
    ChangeSet every;
    for (std::size_t change = 0; change < trials.all(); ++change) every.insert(change);
    const std::optional<Results> before = trials.with({}), after = trials.with(every);
    if (!before || !after) return std::nullopt;
    std::vector<Cause> found;
    for (const ParameterChange& change : comparison.parameters) {
        const ResultKey key{old_id_of(comparison, change.series), change.parameter};
        const auto old = before->find(key), fresh = after->find(key);
        if (old == before->end() || fresh == after->end() || old->second.is(fresh->second)) continue;
        found.push_back({change.series, change.parameter, movers(trials, key, old->second, fresh->second)});
    }
    return found;
}

}  // namespace wayfolio::compare
