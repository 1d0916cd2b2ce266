#include "evaluate/review/readings/misread.hpp"
#include "evaluate/review/readings/positions_read.hpp"
#include "evaluate/review/site/judged_series.hpp"

namespace wayfolio::evaluate {
namespace {

constexpr const char* correct_the_document = "compare with the instrument's own record; correct the document, not the readings";

void add_gross_error(const JudgedSeries& j, const GrossError& found) {
    const std::string where =
        found.run ? j.run(*found.run) : fmt::format("series {}, all runs negative (/series/{}/runs)", j.evaluated.id, j.place);
    const std::string sure = test_words("F test of the shape", found.p,
                                        found.cause == GrossError::Cause::Direction ? misplaced_level : gross_error_level);
    const auto add = [&](FindingCode code, std::string what) { j.add(code, std::move(what), where, sure, correct_the_document); };
    switch (found.cause) {
        case GrossError::Cause::Sign:
            return add(FindingCode::SignTurned,
                       fmt::format("the sign looks turned: the shape is {:.2f} times that of the other runs", found.factor));
        case GrossError::Cause::Unit:
            return add(
                FindingCode::UnitMixedUp,
                fmt::format("the unit looks mixed up ({}): the shape is {:.3g} times that of the other runs", found.unit, found.factor));
        case GrossError::Cause::Decimal:
            return add(FindingCode::DecimalSlip,
                       fmt::format("the decimal point looks misplaced, {}: the shape is {:.3g} times that of the other runs", found.unit,
                                   found.factor));
        case GrossError::Cause::Order:
            return add(FindingCode::OrderReversed, "the readings look written in reverse order of the targets");
        case GrossError::Cause::Direction:
            return add(FindingCode::ApproachMixedUp, "the run lies on those of the other approach: the approach looks mixed up");
    }
}

void add_repeat(const JudgedSeries& j, const RepeatedReadings& found) {
    const std::string sure = test_words("readings alike to the last digit by chance", found.p, repeat_level);
    const auto value = [&] { return fmt::format("{:.6g} {}", j.own(found.value), j.unit()); };
    switch (found.kind) {
        case RepeatedReadings::Kind::Run:
            return j.add(FindingCode::RunCopied,
                         fmt::format("all {} readings equal those of {}: one run looks copied from the other", found.count,
                                     j.run_words(*found.earlier)),
                         j.run(*found.run), sure, "take the run from the instrument's own record, or measure it again");
        case RepeatedReadings::Kind::Sensor:
            return j.add(FindingCode::SensorStuck,
                         fmt::format("from target {} on {} readings in a row are {}: the sensor looks stuck", *found.target + 1,
                                     found.count, value()),
                         j.run(*found.run), sure, "check sensor, cable and trigger, then repeat the run");
        case RepeatedReadings::Kind::Target:
            return j.add(
                FindingCode::TargetAlwaysSame,
                fmt::format("all {} readings {}at target {} are {}, while the others vary", found.count,
                            found.approach ? fmt::format("with {} approach ", document::word(*found.approach)) : "", *found.target + 1,
                            value()),
                fmt::format("series {}, target {} (/series/{}/targets/{})", j.evaluated.id, *found.target + 1, j.place, *found.target),
                sure, "compare with the instrument's own record; read that target again");
    }
}

}  // namespace

void add_misread(const JudgedSeries& j) {
    if (const auto found = positions_read(j.source, j.evaluated))
        j.add(FindingCode::PositionsAsReadings, "the readings look like positions, not like deviations from the targets", j.series(),
              fmt::format("{} grow by {:.3f} for each unit of target", found->numbers ? "their numbers" : "they", found->slope),
              "take the deviations, actual less target, from the instrument's own record; correct the document, not the readings");
    const MisreadRuns misread = misread_runs(j.source, j.evaluated);
    for (const auto& repeated : misread.repeats) add_repeat(j, repeated);
    for (const auto& error : misread.gross) add_gross_error(j, error);
}

}  // namespace wayfolio::evaluate
