#include "report/words/passages.hpp"

#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::CosineError;
using evaluate::SetupOutcome;
using evaluate::SetupVerdict;

/// Numbers with the digits that the document writes.
std::string plain_number(const Subject& subject, double value) {
    constexpr int most = 6;
    return units::number(value, units::decimals_needed(value, most), style_of(subject));
}

std::string printed_unit(const std::string& spelling) {
    if (spelling == "percent") return "%";
    const auto unit = units::deviation_unit(spelling);
    return unit ? std::string(unit->symbol) : spelling;
}

/// Two significant digits, never finer than a nanometre's hundredth.
std::string small_number(const Subject& subject, double value) {
    constexpr int most = 5;
    const int decimals = value > 0 ? std::clamp(units::decimals_for_uncertainty(value), 0, most) : 1;
    return units::number(value, decimals, style_of(subject));
}

using ToldLines = std::vector<const document::MeasurementLine*>;

std::vector<Fact> setup_facts(const Subject& subject, const document::Setup& setup, const ToldLines& told) {
    const units::NumberStyle style = style_of(subject);
    std::vector<Fact> facts;
    std::vector<std::string> motion;
    if (setup.feed_mm_per_min) motion.push_back("feed " + with_unit(units::number(*setup.feed_mm_per_min, 0, style), "mm/min"));
    if (setup.feed_deg_per_min) motion.push_back("feed " + with_unit(units::number(*setup.feed_deg_per_min, 0, style), "°/min"));
    if (setup.dwell_s) motion.push_back("dwell at target " + with_unit(units::number(*setup.dwell_s, 1, style), "s"));
    add_fact(facts, "Motion", capitalised(listed(motion)));
    add_fact(facts, "Warm-up", setup.warm_up);
    for (const auto& line : setup.lines) {
        if (std::ranges::find(told, &line) != told.end()) continue;
        std::string text;
        for (const auto& [axis, at] : line.at_mm)
            text += (text.empty() ? "at " : ", ") + axis + "\u00a0=\u00a0" + with_unit(units::number(at, 1, style), "mm");
        if (line.offset_to_tool_point_mm) {
            const auto& offset = *line.offset_to_tool_point_mm;
            text += (text.empty() ? "" : "; ") + std::string("offset to the functional point (") + units::number(offset[0], 1, style) +
                    ", " + units::number(offset[1], 1, style) + ", " + with_unit(units::number(offset[2], 1, style) + ")", "mm");
        }
        add_fact(facts, "Measurement line, " + line.axis, text);
    }
    return facts;
}

Text verdict_text(const document::SetupCheck& check, const SetupOutcome& outcome) {
    const bool by_reading = check.reading && (check.at_most || check.at_least);
    switch (outcome.outcome) {
        case SetupVerdict::Pass: return Text(by_reading ? "inside" : "done");
        case SetupVerdict::Fail: return Text().strong(by_reading ? "outside" : "not done");
        case SetupVerdict::NotDecided: break;
    }
    return Text().quiet("not evaluated: " + outcome.reason);
}

bool read_on_returning_beam(const document::SetupCheck& check) { return check.read_on == document::ReadOn::ReturningBeam; }

std::string check_name(const Subject& subject, const document::SetupCheck& check) {
    std::string name = capitalised(check.name) + (check.axis.empty() ? "" : ", " + check.axis);
    if (!check.position) return name;
    const auto* axis = document::find_axis(subject.document, check.axis);
    const bool rotary = axis && axis->kind == document::AxisKind::Rotary;
    const std::string at = plain_number(subject, *check.position);
    return name + " at " + (rotary ? at + "°" : with_unit(at, "mm")) +
           (read_on_returning_beam(check) ? ", on the returning beam" : "");
}

std::string check_number(const Subject& subject, const document::SetupCheck& check, double value) {
    return check.unit.empty() ? plain_number(subject, value) : with_unit(plain_number(subject, value), printed_unit(check.unit));
}

std::vector<std::string> check_limits(const Subject& subject, const document::SetupCheck& check) {
    std::vector<std::string> limits;
    if (check.at_least) limits.push_back("at least " + check_number(subject, check, *check.at_least));
    if (check.at_most) limits.push_back("at most " + check_number(subject, check, *check.at_most));
    return limits;
}

PlainTable checks_table(const Subject& subject, const document::Setup& setup) {
    PlainTable table{.columns = {{"Check", 0.4}, {"reading", 0.1}, {"limit", 0.14}, {"verdict", 0.1}, {"basis of the limit", 0.26}}};
    for (const SetupOutcome& outcome : subject.evaluation.setup) {
        const auto& check = setup.checks[outcome.check];
        const std::vector<std::string> limits = check_limits(subject, check);
        const std::string basis = outcome.common_practice ? "common practice, no source" : check.basis;
        const std::string reading = check.reading ? check_number(subject, check, *check.reading) : no_value;
        table.rows.push_back({Text(check_name(subject, check)), Text(reading),
                              Text(limits.empty() ? "\u2013" : listed(limits)), verdict_text(check, outcome),
                              basis.empty() ? Text().quiet("not stated") : Text(basis)});
    }
    return table;
}

/// The smallest U(E) of the axis's positioning series, in µm.
std::optional<double> smallest_U_of_E(const Subject& subject, const std::string& axis) {
    std::optional<double> smallest;
    for (const auto& entry : subject.evaluation.uncertainty) {
        const auto* series = document::find_series(subject.document, entry.series);
        if (!series || entry.parameter != "E" || series->error.axis != axis || entry.expanded.dimension() != units::Dimension::Length)
            continue;
        const double U = entry.expanded.in(units::micrometre);
        smallest = std::min(smallest.value_or(U), U);
    }
    return smallest;
}

/// The verdict of the table: what the beam's angle is against a tenth of U(E).
Text cosine_verdict(const CosineError& error, const std::optional<double>& U) {
    if (!error.resolved) return Text().strong("not resolved");
    if (!U) return Text().quiet("no U of E");
    return error.um > *U / 10 ? Text().strong("exceeds it") : Text("below it");
}

/// A length in µm to two significant digits, in the document's unit.
std::string small_length(const Subject& subject, double um) { return small_number(subject, um / subject.units.length.in_base); }

PlainTable cosine_table(const Subject& subject) {
    const std::string length = " / " + std::string(subject.units.length.symbol);
    PlainTable table{.columns = {{"Beam against axis", 0.17},
                                 {"angle / µrad", 0.12, numbers},
                                 {"travel", 0.12, numbers},
                                 {"cosine error" + length, 0.16, numbers},
                                 {"per metre / µm/m", 0.15, numbers},
                                 {"tenth of U(E)" + length, 0.15, numbers},
                                 {"verdict", 0.13}}};
    constexpr double urad = 1e6;
    for (const CosineError& error : subject.evaluation.cosine) {
        const auto U = smallest_U_of_E(subject, error.axis);
        const auto if_resolved = [&](const std::string& number) { return Text(error.resolved ? number : no_value); };
        table.rows.push_back({Text(error.axis), if_resolved(units::number(error.angle_rad * urad, 0, style_of(subject))),
                              Text(distance_text(subject, error.length_mm)),
                              Text(error.resolved ? small_length(subject, error.um) : "up to " + small_length(subject, error.least_um)),
                              if_resolved(small_number(subject, error.um_per_m)), Text(U ? small_length(subject, *U / 10) : no_value),
                              cosine_verdict(error, U)});
    }
    return table;
}

BulletList cosine_notes(const Subject& subject) {
    BulletList notes{
        {Text("From the beam’s offsets at two positions. A beam at an angle reads short by the travel times (1 \u2212 cosine), whatever "
              "the angle’s sign.")}};
    if (std::ranges::any_of(subject.document.setup->checks, read_on_returning_beam))
        notes.items.emplace_back("Offsets read on the returning beam are twice those of the beam: half of them enters here.");
    for (const CosineError& error : subject.evaluation.cosine) {
        const auto U = smallest_U_of_E(subject, error.axis);
        if (!error.resolved)
            notes.items.push_back(Text()
                                      .strong("Axis " + error.axis + ": the offsets cannot resolve the angle.")
                                      .plain(" Their last digits leave up to " +
                                             with_unit(small_length(subject, error.least_um), subject.units.length.symbol) +
                                             " of cosine error open."));
        else if (U && error.um > *U / 10)
            notes.items.push_back(Text()
                                      .strong("Axis " + error.axis + ": the cosine error exceeds a tenth of U(E),")
                                      .plain(" which is " + with_unit(small_length(subject, *U), subject.units.length.symbol) +
                                             ". Align the beam and measure again, or state the error."));
    }
    return notes;
}

}  // namespace

std::vector<Section> setup_sections(const Subject& subject, const ToldLines& told) {
    std::vector<Section> sections;
    if (!subject.document.setup) return sections;
    const document::Setup& setup = *subject.document.setup;
    Section section{.heading = "Set-up", .parts = {}, .anchor = setup_anchor};
    if (auto facts = setup_facts(subject, setup, told); !facts.empty()) section.parts.emplace_back(FactTable{std::move(facts)});
    if (!setup.checks.empty()) section.parts.emplace_back(checks_table(subject, setup));
    if (!section.parts.empty()) sections.push_back(std::move(section));
    if (!subject.evaluation.cosine.empty())
        sections.push_back({.parts = {cosine_table(subject), cosine_notes(subject)}});
    return sections;
}

std::string setup_outside_words(const evaluate::Evaluation& evaluation) {
    const auto outside =
        static_cast<std::size_t>(std::ranges::count(evaluation.setup, evaluate::SetupVerdict::Fail, &evaluate::SetupOutcome::outcome));
    if (outside == 0) return "";
    return " " + capitalised(count_word(outside)) + (outside == 1 ? " set-up check failed." : " set-up checks failed.");
}

std::string setup_words(const evaluate::Evaluation& evaluation) {
    const auto count = [&](SetupVerdict verdict) {
        return static_cast<std::size_t>(std::ranges::count(evaluation.setup, verdict, &evaluate::SetupOutcome::outcome));
    };
    const std::size_t all = evaluation.setup.size(), failed = count(SetupVerdict::Fail), open = count(SetupVerdict::NotDecided);
    if (all == 0) return "";
    const std::string of_them =
        all == 1 ? "The one set-up check" : (all == 2 ? "Both" : "All " + count_word(all)) + std::string(" set-up checks");
    if (failed + open == 0) return " " + of_them + " passed.";
    if (failed == all) return " " + of_them + " failed.";
    if (failed > 0) return " " + capitalised(count_word(failed)) + " of " + count_word(all) + " set-up checks failed.";
    return " " + capitalised(count_word(all - open)) + " of " + count_word(all) + " set-up checks passed, " + count_word(open) +
           " could not be evaluated.";
}

std::string failed_checks(const Subject& subject) {
    std::vector<std::string> failed;
    for (const SetupOutcome& outcome : subject.evaluation.setup) {
        if (outcome.outcome != SetupVerdict::Fail) continue;
        const document::SetupCheck& check = subject.document.setup->checks[outcome.check];
        const auto limits = check_limits(subject, check);
        const std::string found = check.reading ? check_number(subject, check, *check.reading) : "not done";
        failed.push_back(uncapitalised(check_name(subject, check)) + ", " + found + (limits.empty() ? "" : ", " + listed(limits)));
    }
    if (failed.empty()) return "";
    const std::string count = capitalised(count_word(failed.size()));
    return failed.size() == 1 ? count + " set-up check failed: " + failed[0] : count + " set-up checks failed, first: " + failed[0];
}

}  // namespace wayfolio::report
