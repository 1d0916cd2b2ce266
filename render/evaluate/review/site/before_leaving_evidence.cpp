#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/review/lacking.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

void add_certificate_evidence(std::vector<BeforeLeaving>& lines, const document::Document& document) {
    const auto missing = [&](FindingCode code, std::string what, std::string where) {
        lines.push_back({code, std::move(what), std::move(where), "certain",
                         "write down serial number, certificate and its dates while the instrument is at hand"});
    };
    if (document.instruments.empty()) missing(FindingCode::InstrumentMissing, "no instrument is named", "the document (/instruments)");
    for (std::size_t i = 0; i < document.instruments.size(); ++i) {
        const auto& instrument = document.instruments[i];
        const std::string name = name_of_instrument(instrument), where = fmt::format("{} (/instruments/{})", name, i);
        if (instrument.certificate.empty())
            missing(FindingCode::CertificateMissing, name + " has no calibration certificate", where);
        else if (instrument.calibrated.empty() && instrument.due.empty())
            missing(FindingCode::CertificateMissing,
                    fmt::format("the certificate of {} has no date: whether it was valid at the measurement is open", name),
                    where);
    }
}

/// What to do about an entry that is known at the machine and hardly later; empty for other codes.
std::string act_while_at_hand(FindingCode code) {
    if (code == FindingCode::SeriesInstrumentMissing) return "write down which instrument measured it";
    if (code == FindingCode::SeriesTimeMissing) return "write down when its runs began and ended";
    if (code == FindingCode::MachineConditionMissing) return "look at the machine: write down wear, damage, repairs, compensation in use";
    return {};
}

/// Records that an uncertainty needs and that nobody can make later.
void add_records(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    const bool environment = document.environment && !document.environment->samples.empty();
    if (!environment)
        lines.push_back({FindingCode::EnvironmentMissing, "the environment is not recorded", "the document (/environment/samples)",
                         "certain", "record air and machine temperatures with their times now; they cannot be had later"});
    for (const Lack& lack : evaluation.lacking) {
        const FindingCode code = code_of(lack);
        if (code == FindingCode::DriftRecordMissing)
            lines.push_back({code, fmt::format("no {}", lack.what), "the document (/drift)", "certain",
                             "let the instrument read at one place at rest, for as long as the test took"});
        else if (code == FindingCode::MachineTemperaturesMissing && environment)
            lines.push_back({code, "no temperature of the machine is recorded", "the document (/environment/samples)", "certain",
                             "read the machine's temperatures now, with the time"});
        else if (const std::string act = act_while_at_hand(code); !act.empty())
            lines.push_back({code, fmt::format("the {} is not stated", lack.what), fmt::format("the document ({})", lack.pointer),
                             "certain", act});
    }
}

void add_setup_evidence(std::vector<BeforeLeaving>& lines, const document::Document& document) {
    if (!document.setup || document.setup->checks.empty()) {
        lines.push_back({FindingCode::SetupChecksMissing, "no set-up check is recorded", "the document (/setup/checks)", "certain",
                         "check alignment, signal and mounting while the instrument stands, and write the readings down"});
        return;
    }
    for (std::size_t i = 0; i < document.setup->checks.size(); ++i) {
        const auto& check = document.setup->checks[i];
        if (!check.reading && !check.done)
            lines.push_back({FindingCode::SetupCheckOpen,
                             fmt::format("the set-up check \"{}\" has no reading, and nothing says that it was done", check.name),
                             fmt::format("set-up check {} (/setup/checks/{})", i + 1, i), "certain",
                             "carry it out and write the reading down"});
    }
}

/// Which of several lines a series was measured on is known to whoever stood there, and to no reading.
void add_open_lines(std::vector<BeforeLeaving>& lines, const document::Document& document) {
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const document::Series& series = document.series[i];
        const std::size_t several = document::open_measurement_lines(document, series);
        if (several < 2) continue;
        lines.push_back({FindingCode::MeasurementLineOpen,
                         fmt::format("{} measurement lines of axis {} are given, and the series does not say which is its own", several,
                                     series.error.axis),
                         fmt::format("series {} (/series/{})", series.id, i), "certain",
                         "write the place of its line in the list, from 0, under \"measurement_line\""});
    }
}

/// Runs that give nothing, and traces without runs.
void add_empty_series(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.series.size() && i < document.series.size(); ++i) {
        const SeriesEvaluation& series = evaluation.series[i];
        const std::string where = fmt::format("series {} (/series/{})", series.id, i);
        if (series.source != Source::Runs) continue;
        if (document.series[i].runs.empty()) {
            lines.push_back({FindingCode::TraceWithoutRuns, "the series has a trace but no runs: no parameter is evaluated from it", where,
                             "certain", "measure runs over targets"});
            continue;
        }
        const auto has_value = [](const Parameter& parameter) { return value_of(parameter.value) != nullptr; };
        const bool undefined = series.kind == SeriesKind::Straightness && series.error.axis_is_rotary();
        if (undefined || series.parameters.empty() || std::any_of(series.parameters.begin(), series.parameters.end(), has_value))
            continue;
        lines.push_back({FindingCode::SeriesWithoutResult,
                         fmt::format("the series gives no result: {}",
                                     std::get<NotEvaluated>(series.parameters.front().value).reason),
                         where, "certain", "measure what is missing"});
    }
}

}  // namespace

void add_missing_evidence(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    add_empty_series(lines, document, evaluation);
    add_certificate_evidence(lines, document);
    add_records(lines, document, evaluation);
    add_setup_evidence(lines, document);
    add_open_lines(lines, document);
    if (!document.evaluation.hints.value_or(true))
        lines.push_back({FindingCode::ReadingsNotTested, "the readings were not tested: hints are switched off",
                         "the document (/evaluation/hints)", "certain", "check once with hints on"});
}

}  // namespace wayfolio::evaluate
