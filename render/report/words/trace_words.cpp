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
        const std::string low = at(trace_.lowest.value, trace_.lowest.position), high = at(trace_.highest.value, trace_.highest.position);
        return "range " + value(trace_.highest.value - trace_.lowest.value) + ", from " + low + " to " + high;
    }
    [[nodiscard]] std::string lines() const {
        const auto* const lines = trace_.lines ? value_of(*trace_.lines) : nullptr;
        if (lines == nullptr) return {};
        std::vector<std::string> each;
        for (const auto& line : *lines) each.push_back(value(line.straightness) + " by " + name_of(line.kind));
        return " Straightness error of all samples: " + listed(each) + ".";
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
    words += sentences.lines() + sentences.at_targets() + sentences.period();
    if (const auto* const why = std::get_if<evaluate::NotEvaluated>(&trace.passes)) words += " No pass is evaluated: " + why->reason + ".";
    return words;
}

}  // namespace wayfolio::report
