#include "gather/assemble/assembly.hpp"

#include "document/read/number_rules.hpp"
#include "gather/draft/document_order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace wayfolio::gather {
namespace {

/// Targets as stated, or rising where the export named them.
std::vector<std::size_t> target_order(const SeriesCollector& from, bool stated) {
    std::vector<std::size_t> order(from.targets().size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (!stated) std::ranges::sort(order, {}, [&](std::size_t place) { return from.targets()[place].value(); });
    return order;
}

/// A run whose cells are all empty was not measured: a table has rows for both approaches, whichever there are.
bool holds_readings(const CollectedRun& run) {
    return !run.excluded.empty() ||
           std::ranges::any_of(run.readings, [](const KeptReading& kept) { return kept.state == KeptReading::Present; });
}

/// By their numbers where all have one, and positive first; else as they came.
std::vector<std::size_t> run_order(const SeriesCollector& from) {
    std::vector<std::size_t> order;
    for (std::size_t run = 0; run < from.runs().size(); ++run)
        if (holds_readings(from.runs()[run])) order.push_back(run);
    if (std::ranges::all_of(from.runs(), [](const CollectedRun& run) { return run.number.has_value(); }))
        std::ranges::stable_sort(order, {}, [&](std::size_t place) { return *from.runs()[place].number; });
    return order;
}

/// Whether a document takes this number for certain: of few letters, neither huge nor tiny (input::JsonLimits), and a deviation in its
/// unit. Of any other nothing is said: the document is asked.
bool is_regular(const Decimal& number, const document::NumberRule& rule) {
    constexpr int most_decimals = 18;
    constexpr std::int64_t most_digits = 1'000'000'000'000'000'000;
    return number.exponent <= 0 && number.exponent >= -most_decimals && number.digits > -most_digits && number.digits < most_digits &&
           rule.holds(number.value());
}

Node run_node(const CollectedRun& run, FilledSeries& filled, std::size_t first, SeriesAccount& account) {
    const document::NumberRule& rule = document::deviation_rule(filled.from->mapping().unit);
    bool regular = run.started.empty() && run.ended.empty() && run.excluded.empty();
    std::string deviations;  // one text: a node for each reading would take ten times the memory
    constexpr std::size_t usual_letters = 8;
    deviations.reserve(usual_letters * (filled.targets.size() + 1));
    std::vector<Node> excluded;
    for (std::size_t target = first; target < filled.targets.size(); ++target) {
        const std::size_t place = filled.targets[target];
        const KeptReading kept = place < run.readings.size() ? run.readings[place] : KeptReading{};
        const bool present = kept.state == KeptReading::Present;
        deviations += deviations.empty() ? std::string_view("[") : std::string_view(", ");
        const Decimal number{kept.digits, kept.exponent};
        if (present)
            number.append_to(deviations);
        else
            deviations += "null";
        regular = regular && (!present || is_regular(number, rule));
        const auto reason = run.excluded.empty() ? run.excluded.end() : run.excluded.find(place);
        if (reason != run.excluded.end())
            excluded.push_back(
                object_node({named("target", number_node(std::to_string(target))), named("reason", string_node(reason->second))}));
        ++(reason != run.excluded.end() ? account.set_aside : present ? account.used : account.missing);
    }
    filled.regular.push_back(regular);
    Node node = object_node({named("approach", string_node(document::word(run.approach)))});
    if (!run.started.empty()) node.set("started", string_node(run.started));
    if (!run.ended.empty() && run.ended != run.started) node.set("ended", string_node(run.ended));
    node.set("deviations", number_node(deviations.empty() ? "[]" : deviations + "]"));
    if (!excluded.empty()) node.set("excluded", array_node(std::move(excluded)));
    return node;
}

}  // namespace

void fill_readings(Node& series, const SeriesCollector& from, FilledSeries& filled, SeriesAccount& account) {
    const bool stated = !from.mapping().targets.empty();
    filled.from = &from;
    filled.targets = target_order(from, stated);
    filled.runs = run_order(from);
    if (series.member("targets") == nullptr) {
        std::vector<Node> targets;
        for (const std::size_t place : filled.targets) targets.push_back(number_node(from.targets()[place].text()));
        series.set("targets", array_node(std::move(targets)), series_keys);
    }
    if (!stated) account.derived.emplace_back("targets are the positions that the export names, listed rising");
    if (const std::size_t empty = from.runs().size() - filled.runs.size(); empty > 0)
        account.derived.push_back(fmt::format("{} without a single reading {} left out",
                                              empty == 1 ? "a run" : fmt::format("{} runs", empty), empty == 1 ? "is" : "are"));
    std::vector<Node> runs;
    for (const std::size_t place : filled.runs) {
        const CollectedRun& run = from.runs()[place];
        ++(run.approach == Approach::Positive ? account.positive_runs : account.negative_runs);
        runs.push_back(run_node(run, filled, from.mapping().steps ? 1 : 0, account));
    }
    account.targets = filled.targets.size();
    series.set("runs", array_node(std::move(runs)), series_keys);
}

}  // namespace wayfolio::gather
