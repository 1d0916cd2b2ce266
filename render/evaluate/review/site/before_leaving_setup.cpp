#include "evaluate/surroundings/axis_length.hpp"
#include "document/states.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/review/hints.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::evaluate {
namespace {

std::string limit_text(const document::SetupCheck& check) {
    std::string text;
    if (check.reading) text += fmt::format("read {} {}", units::shortest(*check.reading), check.unit);
    if (check.at_most) text += fmt::format(", at most {} {}", units::shortest(*check.at_most), check.unit);
    if (check.at_least) text += fmt::format(", at least {} {}", units::shortest(*check.at_least), check.unit);
    return text.empty() ? "not done" : text;
}

void add_checks(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (const SetupOutcome& outcome : evaluation.setup) {
        if (outcome.outcome != SetupVerdict::Fail) continue;
        const auto& check = document.setup->checks[outcome.check];
        lines.push_back({FindingCode::SetupCheckFailed,
                         fmt::format("the set-up check \"{}\" is outside its limit: {}", outcome.name, limit_text(check)),
                         fmt::format("set-up check {} (/setup/checks/{})", outcome.check + 1, outcome.check),
                         outcome.common_practice ? "compared with the stated limit; common practice, no source"
                                                 : "compared with the stated limit",
                         "put it right and measure again"});
    }
}

/// Twice the scatter of one reading: less is lost in it.
constexpr double noticeable = 2;

void add_moving_environment(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.series.size(); ++i) {
        const auto& series = evaluation.series[i];
        const auto spread = pooled_spread(series);
        const auto* axis = document::find_axis(document, series.error.axis);
        const auto length = axis_length_m(document, series.error.axis);
        if (series.kind != SeriesKind::Positioning || !spread || !length) continue;
        const double coefficient = axis && axis->expansion ? axis->expansion->value : 0;
        const RunSurroundings* worst = nullptr;
        double most = 0;
        for (const RunSurroundings& run : evaluation.environment.during_runs) {
            const double effect = *length * (coefficient * run.machine_K + run.index_um_per_m);
            if (run.series != series.id || effect <= most) continue;
            worst = &run;
            most = effect;
        }
        if (!worst || most <= noticeable * spread->s) continue;
        lines.push_back(
            {FindingCode::EnvironmentMoved,
             fmt::format(
                 "the environment moved during a run by as much as {:.1f} µm over the travel (air {:.2f} K, machine {:.2f} K)",
                 most, worst->air_K, worst->machine_K),
             run_place(document.series[i], i, worst->run),
             fmt::format("more than {:.0f} times the standard deviation of {:.2f} µm; common practice, no source", noticeable, spread->s),
             "shut doors and heaters off, wait, and repeat the run"});
    }
}

void add_biases(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (const auto& [code, pointer, text] : bias_warnings(document, evaluation)) {
        const bool air = pointer.ends_with("/air_correction");
        lines.push_back({code, text, fmt::format("the document ({})", pointer), "arithmetic from the record; certain",
                         code == FindingCode::AirCorrectionNotPossible ? "write down the air that the instrument took, or do not ask for it"
                         : air ? "give the instrument the air of the record and measure again, or ask for the correction: "
                                 "\"air_correction\": \"from-record\" under \"evaluation\""
                               : "put it right and measure again, or list it as an input quantity with its \"influence\""});
    }
}

std::string bias_pointer(const KnownBias& bias, std::size_t series) {
    const bool air = bias.influence == document::Influence::AirCorrection;
    return fmt::format("/series/{}/{}", series,
                       air ? "air_correction" : bias.influence == document::Influence::DeadPath ? "dead_path_mm" : "expansion_correction");
}

}  // namespace

void add_setup_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    add_checks(lines, document, evaluation);
    for (const auto& [code, pointer, text] : cosine_warnings(document, evaluation))
        lines.push_back({code, text, "set-up checks (" + pointer + ")", "arithmetic from the two offsets",
                         "align the beam again, or measure the offsets with finer resolution"});
    add_biases(lines, document, evaluation);
    add_moving_environment(lines, document, evaluation);
    for (std::size_t i = 0; i < evaluation.environment.drift.size(); ++i) {
        const DriftEvaluation& drift = evaluation.environment.drift[i];
        if (drift.covers_test.value_or(true)) continue;
        lines.push_back({FindingCode::DriftRecordShort,
                         fmt::format("the drift record is shorter ({:.0f} min) than the test ({:.0f} min)", *drift.minutes,
                                     *drift.test_minutes),
                         fmt::format("drift record (/drift/{})", i), "certain",
                         "let the record run on while you pack everything else"});
    }
}

std::vector<Warning> bias_warnings(const document::Document& document, const Evaluation& evaluation) {
    std::vector<Warning> warnings;
    for (std::size_t i = 0; i < evaluation.series.size() && i < document.series.size(); ++i) {
        const SeriesEvaluation& series = evaluation.series[i];
        for (const KnownBias& bias : evaluation.known_biases) {
            const bool added = bias.treatment == KnownBias::Treatment::Added, open = bias.treatment == KnownBias::Treatment::Open;
            if (bias.series != series.id || bias.influence == document::Influence::Cosine || !(added || open)) continue;
            warnings.push_back({FindingCode::BiasNotCorrected, bias_pointer(bias, i),
                                fmt::format("{}: {} leave {} over the travel uncorrected; {}", name_of_series(document.series[i]),
                                            document::influence_name(bias.influence), bias.text(),
                                            added ? "U is enlarged by it" : "no U counts it")});
        }
        const auto* why = series.air_correction ? std::get_if<NotEvaluated>(&*series.air_correction) : nullptr;
        if (why)
            warnings.push_back({FindingCode::AirCorrectionNotPossible, "/evaluation/air_correction",
                                fmt::format("{}: not corrected for the air, as was asked for: {}", name_of_series(document.series[i]),
                                            why->reason)});
    }
    return warnings;
}

std::vector<Warning> cosine_warnings(const document::Document& document, const Evaluation& evaluation) {
    std::vector<Warning> warnings;
    for (const CosineError& cosine : evaluation.cosine) {
        const std::string pointer = fmt::format("/setup/checks/{}", cosine.checks.back());
        if (!cosine.resolved)
            warnings.push_back({FindingCode::CosineNotResolved, pointer,
                                fmt::format("the beam offsets do not resolve the angle of the beam to axis {}: the cosine error "
                                            "may be up to {:.2g} µm",
                                            cosine.axis, cosine.least_um)});
        for (const auto& entry : evaluation.uncertainty) {
            const auto* series = document::find_series(document, entry.series);
            if (!series || entry.parameter != "E" || series->error.axis != cosine.axis ||
                entry.expanded.dimension() != units::Dimension::Length)
                continue;
            const double tenth = entry.without_known_bias().in(units::micrometre) / 10;
            if (cosine.um <= tenth) continue;
            warnings.push_back({FindingCode::CosineError, pointer,
                                fmt::format("the cosine error of axis {} is {:.2g} µm over the travel, more than a tenth of "
                                            "U(E) = {:.2g} µm of {}",
                                            cosine.axis, cosine.um, 10 * tenth, name_of_series(*series))});
        }
    }
    return warnings;
}

}  // namespace wayfolio::evaluate
