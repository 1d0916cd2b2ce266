#include "report/words/passages.hpp"

#include "report/words/names.hpp"
#include "report/words/shown.hpp"

#include <fmt/format.h>

namespace wayfolio::report {
namespace {

using evaluate::TraceEvaluation;

std::string passes_words(const TraceEvaluation& trace) {
    const auto* const passes = value_of(trace.passes);
    if (passes == nullptr) return {};
    const auto count = [](std::size_t n, const char* way) { return fmt::format("{}\u00a0{} pass{}", n, way, n == 1 ? "" : "es"); };
    if (passes->negative == 0) return " in " + count(passes->positive, "positive");
    if (passes->positive == 0) return " in " + count(passes->negative, "negative");
    return " in " + count(passes->positive, "positive") + " and " + count(passes->negative, "negative");
}

/// What was found in one trace, in the shown unit: each fact under its name.
class TraceFacts {
public:
    explicit TraceFacts(const SeriesView& view)
        : trace_(*view.evaluation.trace), shown_(view.shown), position_unit_(view.evaluation.position_unit) {}

    [[nodiscard]] std::vector<Fact> all() {
        const std::string count = units::number(static_cast<double>(trace_.samples), 0, shown_.style);
        add("Samples", fmt::format("{}{}, unfiltered", count, passes_words(trace_)));
        if (trace_.samples == 1) add("Value", at(trace_.highest.value, trace_.highest.position));  // one value has no range
        else add("Range", range_of(trace_.highest, trace_.lowest));
        add("Straightness", lines_of(trace_.lines));
        add("Local straightness", local_of(trace_.local));
        add_at_targets();
        const auto* const period = trace_.periodic ? value_of(*trace_.periodic) : nullptr;
        if (period) add("Period", fmt::format("amplitude {} at a pitch of {}", value(period->amplitude),
                                              position_text(shown_, {*trace_.pitch, position_unit_})));
        add_filtered();
        if (const auto* const why = std::get_if<evaluate::NotEvaluated>(&trace_.passes)) add("Not evaluated", "passes: " + why->reason);
        return std::move(facts_);
    }

private:
    void add(const std::string& name, const std::string& words) {
        if (!words.empty()) facts_.push_back({name, {Text(words)}});
    }
    void add(const std::string& name, std::vector<Text> lines) {
        if (!lines.empty()) facts_.push_back({name, std::move(lines)});
    }
    void add_at_targets() {
        if (const auto* const reversal = value_of(trace_.reversal))
            add("Reversal", "largest between passes " + at(reversal->value, reversal->position));
        for (const auto approach : document::both_approaches)
            if (const auto* const largest = value_of(trace_.repeatability[approach]))
                add("4\u00a0s", fmt::format("largest over {} passes {}", document::word(approach), at(largest->value, largest->position)));
    }
    /// Says by what they are filtered: filtered values are never to be taken for samples.
    void add_filtered() {
        if (!trace_.filtered) return;
        if (const auto* const why = std::get_if<evaluate::NotEvaluated>(&*trace_.filtered))
            return add("Filtered values", "not evaluated: " + why->reason);
        const auto& filtered = *value_of(*trace_.filtered);
        add("Filter", fmt::format("Gaussian low-pass with a cut-off of {0} (weights of ISO\u00a016610-21; half of a wave as long as the "
                                  "cut-off goes through; the first and the last {0} of each pass are left out)",
                                  position_text(shown_, {*trace_.cutoff, position_unit_})));
        add("Filtered, range", range_of(filtered.highest, filtered.lowest));
        add("Filtered, straightness", lines_of(filtered.lines));
        add("Filtered, local straightness", local_of(filtered.local));
    }
    [[nodiscard]] std::string range_of(const evaluate::TracePlace& highest, const evaluate::TracePlace& lowest) const {
        return value(highest.value - lowest.value) + ", from " + at(lowest.value, lowest.position) + " to " +
               at(highest.value, highest.position);
    }
    using TraceLines = std::optional<evaluate::Evaluated<std::vector<evaluate::TraceLine>>>;
    [[nodiscard]] std::string lines_of(const TraceLines& evaluated) const {
        const auto* const lines = evaluated ? value_of(*evaluated) : nullptr;
        if (lines == nullptr) return {};
        std::vector<std::string> each;
        for (const auto& line : *lines) each.push_back(value(line.straightness) + " by " + name_of(line.kind));
        return listed(each);
    }
    /// By the minimum zone of windows along the passes; of windows that are not asked for, only those that there are.
    [[nodiscard]] std::vector<Text> local_of(const std::vector<evaluate::TraceLocal>& windows) const {
        std::vector<Text> each;
        for (const auto& local : windows) {
            const std::string length = length_text(local.window);
            if (const auto* const widest = value_of(local.widest))
                each.emplace_back(fmt::format("{} over {}, from {} to {}{}", value(widest->value), length,
                                              position_text(shown_, widest->from), position_text(shown_, widest->to),
                                              against_limit(local, *widest)));
            else if (local.limit)
                each.emplace_back(fmt::format("none over {}: {}", length, std::get<evaluate::NotEvaluated>(local.widest).reason));
        }
        if (!each.empty()) each.insert(each.begin(), Text("by the minimum zone of windows along the passes:"));
        return each;
    }
    [[nodiscard]] std::string length_text(const units::Length& length) const {
        return position_text(shown_, {length.in(units::millimetre), units::position_millimetre});
    }
    [[nodiscard]] std::string against_limit(const evaluate::TraceLocal& local, const evaluate::TraceLocal::Widest& widest) const {
        if (!local.limit) return {};
        const std::string limit = value(*local.limit);
        if (widest.value > *local.limit) return " (more than the limit of " + limit + ")";
        if (widest.at_most > *local.limit) return " (a window between those looked at may have more than the limit of " + limit + ")";
        return " (the limit is " + limit + ")";
    }
    [[nodiscard]] std::string value(const Deviation& value) const {
        return with_unit(result_number(shown_, value, shown_.decimals), shown_.unit.symbol);
    }
    [[nodiscard]] std::string at(const Deviation& value, const Position& position) const {
        return this->value(value) + " at " + position_text(shown_, position);
    }
    static std::string name_of(document::ReferenceLine line) {
        switch (line) {
            case document::ReferenceLine::EndPoint:
                return "the line through both ends";
            case document::ReferenceLine::LeastSquares:
                return "least squares over the way";
            case document::ReferenceLine::MinimumZone:
                return "the minimum zone";
        }
        return {};
    }

    const TraceEvaluation& trace_;
    const Shown& shown_;
    PositionUnit position_unit_;  ///< that the pitch is stated in
    std::vector<Fact> facts_;
};

}  // namespace

std::string trace_words(const SeriesView& view) {
    if (!view.evaluation.trace) return {};
    std::string words = "The trace on the fly of " + view.series.error.text() + ":";
    const std::vector<Fact> facts = TraceFacts(view).all();
    for (const Fact& fact : facts) {
        words += (&fact == &facts.front() ? " " : "; ") + uncapitalised(fact.name);
        for (const Text& line : fact.lines) words += " " + line.words();
    }
    return words + ".";
}

std::optional<Section> trace_section(const SeriesView& view) {
    if (!view.evaluation.trace) return std::nullopt;
    return Section{.heading = "The trace on the fly of " + view.series.error.text(), .parts = {FactTable{TraceFacts(view).all()}}};
}

}  // namespace wayfolio::report
