#include "document/read/reading.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <limits>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<Standard>, 3> standards{{{"ISO 230-2:2014", Standard::Iso230_2_2014},
                                                   {"ISO 230-2:2006", Standard::Iso230_2_2006},
                                                   {"ISO 230-2:1997", Standard::Iso230_2_1997}}};
constexpr std::array<Word<OlderStandard>, 2> older_standards{
    {{"ISO 230-2:1988", OlderStandard::Iso230_2_1988}, {"VDI/DGQ 3441:1977", OlderStandard::VdiDgq3441_1977}}};
constexpr std::array<Word<ReferenceLine>, 3> lines{{{"end-point", ReferenceLine::EndPoint},
                                                    {"least-squares", ReferenceLine::LeastSquares},
                                                    {"minimum-zone", ReferenceLine::MinimumZone}}};
constexpr std::array<Word<DecisionRule>, 5> rules{{{"simple", DecisionRule::Simple},
                                                   {"guard-band", DecisionRule::GuardBand},
                                                   {"guard-band-both-sides", DecisionRule::GuardBandBothSides},
                                                   {"iso-14253-1", DecisionRule::Iso14253_1},
                                                   {"non-binary", DecisionRule::NonBinary}}};
constexpr std::array<Word<Coverage>, 2> coverages{{{"k2", Coverage::K2}, {"95-percent", Coverage::Percent95}}};
constexpr std::array<Word<AirCorrectionRequest>, 1> air_corrections{{{"from-record", AirCorrectionRequest::FromRecord}}};
constexpr std::uint64_t fewest_trials = 100, most_trials = 5'000'000;

/// Readings that every trial draws anew: those of positioning.
std::size_t simulated_readings(const Document& document) {
    std::size_t count = 0;
    for (const Series& series : document.series)
        if (series.error.kind() == ErrorKind::Positioning)
            for (const Run& run : series.runs) count += run.deviations.size();
    return count;
}

/// So many trials as draw 600 million readings, some nine seconds of one processor; those that are not kept are drawn three times.
/// JCGM 101 7.2.1 asks for 200 000 where 95 % are covered: enough for three thousand readings, the tests of fifteen axes.
std::size_t most_trials_of(std::size_t readings) {
    constexpr std::size_t most_drawn = 600'000'000, kept = MonteCarloRequest::most_kept, passes = 3;
    const std::size_t times = most_drawn / readings;
    return std::max<std::size_t>(fewest_trials, times <= kept ? times : kept + (times - kept) / passes);
}

void check_time_of_trials(const Value& value, const MonteCarloRequest& request, const Reading& reading) {
    const std::size_t readings = simulated_readings(reading.document);
    if (readings == 0 || request.trials <= most_trials_of(readings)) return;
    const Value* const trials = value.member("trials");
    reading.faults.add(trials != nullptr ? *trials : value, fmt::format("{} trials", request.trials),
                       fmt::format("at most {} trials for the {} readings of positioning", most_trials_of(readings), readings),
                       "JCGM 101 asks for 200000 trials where 95 % are covered");
}

MonteCarloRequest read_monte_carlo(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object: trials, seed");
    MonteCarloRequest request;
    if (const auto trials = reader.whole("trials", fewest_trials, most_trials)) request.trials = *trials;
    if (const auto seed = reader.whole("seed", 0, std::numeric_limits<std::uint64_t>::max())) request.seed = *seed;
    reader.finish();
    check_time_of_trials(value, request, reading);
    return request;
}

std::vector<OlderStandard> read_also(ObjectReader& reader) {
    std::vector<OlderStandard> also;
    for (const Value& item : reader.array("also", "an array of older standards")) {
        const auto standard = reader.word_of(item, "an older standard", older_standards);
        if (!standard) continue;
        if (std::ranges::find(also, *standard) == also.end()) also.push_back(*standard);
        else reader.faults().add_wrong(item, "each standard once");
    }
    return also;
}

}  // namespace

void read_evaluation_request(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "what is to be evaluated");
    EvaluationRequest& request = reading.document.evaluation;
    request.standard = reader.choice("standard", "a standard", standards);
    request.also = read_also(reader);
    request.straightness_reference = reader.choice("straightness_reference", "a reference line", lines);
    std::vector<double> lengths;
    for (const Value& item : reader.array("local_straightness_mm", "an array of lengths in mm", 100))
        if (const auto length = reader.number_of(item, positive_length_mm)) lengths.push_back(*length);
    // An empty array is an answer too: no local straightness.
    if (value.member("local_straightness_mm") != nullptr) request.local_straightness_mm = std::move(lengths);
    request.decision_rule = reader.choice("decision_rule", "a decision rule", rules);
    request.coverage = reader.choice("coverage", "a coverage", coverages);
    if (const Value* const monte_carlo = reader.find("monte_carlo")) request.monte_carlo = read_monte_carlo(*monte_carlo, reading);
    request.hints = reader.flag("hints");
    request.air_correction = reader.choice("air_correction", "where the air is taken from", air_corrections);
    request.agreed = reader.texts("agreed", CountLimits::remarks);
    reader.finish();
}

}  // namespace wayfolio::document
