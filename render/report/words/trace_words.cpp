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

/// What was found in one trace, in the shown unit.
class TraceSentences {
public:
    explicit TraceSentences(const SeriesView& view)
        : trace_(*view.evaluation.trace), shown_(view.shown), position_unit_(view.evaluation.position_unit) {}

    [[nodiscard]] std::string range() const {
        if (trace_.samples == 1) return at(trace_.highest.value, trace_.highest.position);  // one value has no range
        return range_of(trace_.highest, trace_.lowest);
    }
    [[nodiscard]] std::string lines() const { return lines_of(trace_.lines, "all samples") + local_of(trace_.local, "the samples"); }
    /// Says by what they are filtered: filtered values are never to be taken for samples.
    [[nodiscard]] std::string filtered() const {
        if (!trace_.filtered) return {};
        if (const auto* const why = std::get_if<evaluate::NotEvaluated>(&*trace_.filtered))
            return " Filtered values are not evaluated: " + why->reason + ".";
        const auto& filtered = *value_of(*trace_.filtered);
        const std::string cutoff = position_text(shown_, {*trace_.cutoff, position_unit_});
        return fmt::format(" Filtered by a Gaussian low-pass with a cut-off of {0} (weights of ISO\u00a016610-21; half of a wave as long "
                           "as the cut-off goes through; the first and the last {0} of each pass are left out), {1}.",
                           cutoff, range_of(filtered.highest, filtered.lowest)) +
               lines_of(filtered.lines, "the filtered values") + local_of(filtered.local, "the filtered values");
    }
    [[nodiscard]] std::string at_targets() const {
        std::string words;
        if (const auto* const reversal = value_of(trace_.reversal))
            words += " Between passes the largest reversal is " + at(reversal->value, reversal->position) + ".";
        for (const auto approach : document::both_approaches)
            if (const auto* const largest = value_of(trace_.repeatability[approach]))
                words += fmt::format(" The largest 4\u00a0s over {} passes is {}.", document::word(approach),
                                     at(largest->value, largest->position));
        return words;
    }
    [[nodiscard]] std::string period() const {
        const auto* const found = trace_.periodic ? value_of(*trace_.periodic) : nullptr;
        if (found == nullptr) return {};
        return fmt::format(" At a pitch of {} the amplitude is {}.", position_text(shown_, {*trace_.pitch, position_unit_}),
                           value(found->amplitude));
    }

private:
    [[nodiscard]] std::string range_of(const evaluate::TracePlace& highest, const evaluate::TracePlace& lowest) const {
        return "range " + value(highest.value - lowest.value) + ", from " + at(lowest.value, lowest.position) + " to " +
               at(highest.value, highest.position);
    }
    [[nodiscard]] std::string lines_of(const std::optional<evaluate::Evaluated<std::vector<evaluate::TraceLine>>>& evaluated,
                                       const char* what) const {
        const auto* const lines = evaluated ? value_of(*evaluated) : nullptr;
        if (lines == nullptr) return {};
        std::vector<std::string> each;
        for (const auto& line : *lines) each.push_back(value(line.straightness) + " by " + name_of(line.kind));
        return fmt::format(" Straightness error of {}: {}.", what, listed(each));
    }
    /// Of windows that are not asked for, only those that there are.
    [[nodiscard]] std::string local_of(const std::vector<evaluate::TraceLocal>& windows, const char* what) const {
        std::vector<std::string> each;
        for (const auto& local : windows) {
            const std::string length = length_text(local.window);
            if (const auto* const widest = value_of(local.widest))
                each.push_back(fmt::format("{} over {}, from {} to {}{}", value(widest->value), length, position_text(shown_, widest->from),
                                           position_text(shown_, widest->to), against_limit(local, *widest)));
            else if (local.limit)
                each.push_back(fmt::format("none over {}: {}", length, std::get<evaluate::NotEvaluated>(local.widest).reason));
        }
        if (each.empty()) return {};
        return fmt::format(" Local straightness error of {}, by the minimum zone of windows along the passes: {}.", what, listed(each));
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
};

}  // namespace

std::string trace_words(const SeriesView& view) {
    if (!view.evaluation.trace) return {};
    const TraceEvaluation& trace = *view.evaluation.trace;
    const TraceSentences sentences(view);
    const std::string count = units::number(static_cast<double>(trace.samples), 0, view.shown.style);
    std::string words = fmt::format("The trace on the fly of {} has {}\u00a0sample{}{}, unfiltered: {}.", view.series.error.text(),
                                    count, trace.samples == 1 ? "" : "s", passes_words(trace), sentences.range());
    words += sentences.lines() + sentences.at_targets() + sentences.period() + sentences.filtered();
    if (const auto* const why = std::get_if<evaluate::NotEvaluated>(&trace.passes)) words += " No pass is evaluated: " + why->reason + ".";
    return words;
}

}  // namespace wayfolio::report
