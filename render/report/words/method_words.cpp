#include "report/words/passages.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"
#include "units/version.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::SeriesKind;

bool has_kind(const Subject& subject, SeriesKind kind) {
    return std::ranges::any_of(subject.evaluation.series, [&](const auto& series) { return series.kind == kind; });
}

/// Whether R and A were evaluated anywhere.
bool has_scatter(const Subject& subject) {
    return std::ranges::any_of(subject.evaluation.series, [](const auto& series) {
        const auto* parameter = evaluate::find_parameter(series, "R");
        return parameter && evaluate::value_of(parameter->value);
    });
}

/// "EXX, as left: run 5 negative, target 20 (door of the hall opened)".
std::vector<std::string> excluded_readings(const document::Document& document) {
    std::vector<std::string> all;
    for (const auto& series : document.series)
        for (std::size_t run = 0; run < series.runs.size(); ++run)
            for (const auto& exclusion : series.runs[run].excluded)
                all.push_back(series_name(series) + ": " + run_words(series, run) + ", target " + std::to_string(exclusion.target + 1) +
                              " (" + exclusion.reason + ")");
    return all;
}

void add_exclusions(BulletList& list, const document::Document& document) {
    constexpr std::size_t most = 8;
    const auto excluded = excluded_readings(document);
    if (excluded.empty()) list.items.emplace_back("No reading is excluded.");
    for (std::size_t i = 0; i < std::min(most, excluded.size()); ++i) list.items.emplace_back("Excluded: " + excluded[i] + ".");
    if (excluded.size() > most)
        list.items.emplace_back(capitalised(count_word(excluded.size() - most)) + " more excluded readings are named with the readings.");
}

void add_positioning(BulletList& list, bool with_scatter) {
    list.items.push_back(marked(
        "Positioning (ISO 230-2 clause 3), at each target: mean of each approach; its standard deviation *s*, root of the sum of squares "
        "about that mean over *n*\u00a0\u2212\u00a01; mean bi-directional deviation, half the sum of both means; reversal value, positive "
        "mean less negative mean, with its sign."));
    list.items.push_back(marked(
        "*B*, the reversal error: the largest reversal value by size; the mean reversal value: the average, with signs. *M*: range of the "
        "mean bi-directional deviations. *E*: largest less smallest of all means of one approach; of a single approach, of its own."));
    if (with_scatter) list.items.push_back(
        marked("*R* of one approach: the largest 4\u202f*s*; bi-directional *R*: the largest of 2\u202f*s* positive plus 2\u202f*s* "
               "negative plus the size of the reversal value, and of either 4\u202f*s*. *A*: largest mean plus 2\u202f*s* less smallest "
               "mean minus 2\u202f*s*, over both approaches, or over one."));
    list.items.push_back(
        marked("One reading at a target gives no *s*: *R* and *A* are not evaluated. *E* uses the means that exist, *B* and *M* the "
               "targets that have both."));
}

void add_straightness(BulletList& list) {
    list.items.push_back(
        marked("Straightness error (ISO 230-1:2012 clause 3.4): largest less smallest distance of the means of each approach from one "
               "line, so that a reversal shows; beside it the same of the mean bi-directional deviations, and of each approach."));
    list.items.push_back(
        marked("Lines: end-point, through the first and the last mean bi-directional deviation; least squares, through these deviations; "
               "minimum zone, the line about which the range of all means of both approaches is least, exact by their convex hull, and "
               "of several such the one nearest to least squares. A slope is that of the line, along rising position, in µm/m."));
    list.items.push_back(
        marked("Local straightness error: the largest range from the end-point chord of any window of the given length, over the trace of "
               "means with straight lines between targets."));
}

void add_geometry(BulletList& list, const Subject& subject) {
    if (has_kind(subject, SeriesKind::AngleSteps))
        list.items.push_back(
            marked("Angle steps: the first height is 0; each grows by the mean angle of its step times the base length. The heights by "
                   "the angles of each approach alone are drawn beside; their difference at the last station is the closing error."));
    if (has_kind(subject, SeriesKind::Angle))
        list.items.push_back(marked(
            "Angular error motions (ISO 230-1:2012 clause 3.4.16): largest less smallest of all means of one approach; no slope is "
            "removed. Pitch, yaw and roll follow from the axes of ISO 841 and the machine's vertical axis."));
    if (std::ranges::any_of(subject.evaluation.series, [](const auto& series) { return series.at_tool_point.has_value(); }))
        list.items.push_back(marked(
            "At the functional point: measured error plus rotation times offset *t*, from the means of each approach, by the formulas that "
            "stand there; *s* is not moved."));
    if (!subject.evaluation.squareness.empty())
        list.items.push_back(
            marked("Squareness error: minus the sum of the two straightness slopes plus the error of the square; positive opens the "
                   "quadrant between the positive axes."));
    if (!subject.evaluation.compensation.empty())
        list.items.push_back(marked(
            "Compensation: points by the rules below each table; predicted are the means plus the table, with *s* "
            "unchanged."));
}

std::string older_words(document::OlderStandard standard) {
    return standard == document::OlderStandard::Iso230_2_1988
               ? "ISO 230-2:1988: the same with 3\u202f*s* instead of 2\u202f*s*."
               : "VDI/DGQ 3441:1977: *U* is the size of the reversal value, *Ps* six times the mean of the two *s*, *Pa* the range of the "
                 "mean bi-directional deviations; *P* the largest of these plus half of (*U* + *Ps*) less the smallest minus that.";
}

struct SourceLine {
    std::string name, used_for;
    bool compared = true;  ///< its printed text was compared with the formulas here, in full
};

void add_uncertainty_sources(std::vector<SourceLine>& all, const Subject& subject) {
    if (subject.evaluation.uncertainty.empty()) return;
    all.push_back({"JCGM 100:2008 (GUM)", "combination, degrees of freedom, coverage, rounding"});
    if (std::ranges::any_of(subject.evaluation.uncertainty, [](const auto& entry) { return entry.monte_carlo.has_value(); }))
        all.push_back({"JCGM 101:2008", "Monte Carlo method and its validation"});
    if (subject.document.job.laboratory && !subject.document.job.laboratory->capability.empty())
        all.push_back({"ILAC-P14:09/2020", "never below the laboratory's capability (CMC)", false});
}

void add_decision_sources(std::vector<SourceLine>& all, const Subject& subject) {
    if (subject.evaluation.decisions.empty()) return;
    using document::DecisionRule;
    const auto rule = subject.document.evaluation.decision_rule.value_or(DecisionRule::Simple);
    if (rule == DecisionRule::Iso14253_1) all.push_back({"ISO 14253-1:2017", "decision rule, 1.65 u", false});
    else
        all.push_back(
            {"ILAC-G8:09/2019 clause 4",
             rule == DecisionRule::GuardBandBothSides ? "guard band w = U; applied on both sides of the limit here" : "decision rule"});
    if (!subject.evaluation.uncertainty.empty())
        all.push_back({"JCGM 106:2012 clause 7", "probability of conformity", false});
}

void add_surroundings_sources(std::vector<SourceLine>& all, const Subject& subject) {
    const auto& surroundings = subject.evaluation.environment;
    const bool named_there = std::ranges::find(subject.layout.blocks, "environment") != subject.layout.blocks.end();
    if (evaluate::value_of(surroundings.air) && named_there)
        all.push_back({"Air and expansion", "the sources that the method of the environment names"});
    if (evaluate::value_of(surroundings.air) && !named_there)
        all.push_back({"Ciddor, Appl. Opt. 35 (1996) 1566; NIST Engineering Metrology Toolbox", "refractive index of air, both equations"});
    if (!surroundings.expansion.empty() && !named_there)
        all.push_back({"Swyt, J. Res. NIST 99 (1994) 31", "uncertainty of differential thermal expansion"});
    if (!surroundings.drift.empty()) all.push_back({"ISO/TR 230-9:2005 Annex C", "E(VE)", false});
    const auto& setup = subject.document.setup;
    if (setup && std::ranges::any_of(setup->checks, [](const auto& check) { return check.basis == "common practice"; }))
        all.push_back({"Common practice, no source", "limits of set-up checks that are marked so"});
}

/// What took part and what did not: signs, excluded readings, missing ones, stated ones, what was agreed.
Section readings_method(const Subject& subject) {
    BulletList list;
    list.items.emplace_back(
        "Deviation is actual minus target. Every number is recomputed here from the single readings, unless marked “as stated” or "
        "“predicted”, in double precision, and rounded only for print.");
    for (const auto& series : subject.document.series)
        if (series.target_minus_actual)
            list.items.emplace_back(series_name(series) + " was recorded as target minus actual; its signs are changed here.");
    if (std::ranges::any_of(subject.document.series, [](const auto& series) {
            return series.error.axis_is_rotary() && series.error.kind() == document::ErrorKind::Positioning;
        }))
        list.items.emplace_back(
            "Deviations of a rotary axis are taken within half a turn of their target position: a reading of 359.999° at a target of "
            "0° is a deviation of \u22120.001°.");
    add_exclusions(list, subject.document);
    std::size_t missing = 0;
    for (const auto& series : subject.evaluation.series) missing += series.missing.size();
    if (missing > 0)
        list.items.push_back(marked(capitalised(count_word(missing)) + (missing == 1 ? " reading is" : " readings are") +
                                    " missing and was not replaced; *n* counts what is there."));
    for (const std::string& agreed : subject.document.evaluation.agreed)
        list.items.emplace_back("Agreed instead of the test of the standard: " + agreed + ".");
    for (const std::string& used : subject.evaluation.defaults_used)
        list.items.emplace_back(capitalised(used) + (used.ends_with('.') ? "" : "."));
    return {.heading = "Method: the readings", .parts = {list}, .set_as = SetAs::Reference};
}

/// A file that readings came from, with all that came from it.
struct SourceFile {
    const document::OriginFile* file;
    std::string gives;
};

void add_file(std::vector<SourceFile>& all, const document::OriginFile& file, const std::string& gives) {
    const auto same = std::ranges::find_if(all, [&](const SourceFile& one) {
        return one.file->file == file.file && one.file->sha256 == file.sha256;
    });
    if (same == all.end()) all.push_back({&file, gives});
    else if (gives != same->gives && !same->gives.ends_with("; " + gives)) same->gives += "; " + gives;
}

void add_origin(std::vector<SourceFile>& all, const document::Origin& origin, const std::string& what) {
    for (const document::OriginFile& file : origin.files) add_file(all, file, what);
    if (origin.mapping) add_file(all, *origin.mapping, "which column is what (mapping)");
}

/// From which files the readings were gathered.
std::vector<Section> origins(const Subject& subject) {
    std::vector<SourceFile> all;
    for (const auto& series : subject.document.series)
        if (series.origin) add_origin(all, *series.origin, series_name(series));
    const auto& environment = subject.document.environment;
    if (environment && environment->origin) add_origin(all, *environment->origin, "environment");
    for (const document::OriginFile& file : subject.document.facts) add_file(all, file, "facts that are the same from job to job");
    if (all.empty()) return {};
    PlainTable table{.columns = {{"File", 0.2}, {"SHA-256", 0.5}, {"gives", 0.3}}};
    bool kept = false;
    for (const SourceFile& one : all) {
        table.rows.push_back({Text(one.file->file), Text(one.file->sha256.empty() ? "not stated" : one.file->sha256), Text(one.gives)});
        kept = kept || !one.file->kept.empty();
    }
    Section section{.heading = "Origin of the readings", .parts = {table}};
    if (kept)
        section.parts.emplace_back(Paragraph{Text("Files that were kept are attached, byte for byte; verifying gathers the readings from "
                                                  "them again.")});
    return {section};
}

/// How each number was made; only what this report holds.
Section formulas(const Subject& subject) {
    BulletList list;
    if (has_kind(subject, SeriesKind::Positioning)) add_positioning(list, has_scatter(subject));
    if (has_kind(subject, SeriesKind::Straightness) || has_kind(subject, SeriesKind::AngleSteps)) add_straightness(list);
    add_geometry(list, subject);
    for (const auto older : subject.document.evaluation.also) list.items.push_back(marked(older_words(older)));
    list.items.push_back(
        marked("*U* has two significant digits, values are rounded alike (GUM 7.2.6), ties to even; verdicts use unrounded values."));
    return {.heading = "Method: formulas in words", .parts = {list}, .set_as = SetAs::Reference};
}

/// Every source that a number or a rule of this report rests on, with its edition; and, once, which were not compared with print.
Section sources(const Subject& subject) {
    std::vector<SourceLine> all;
    for (const auto& series : subject.evaluation.series) {
        if (std::ranges::find(all, series.standard, &SourceLine::name) != all.end() || series.standard.empty()) continue;
        const bool positioning = series.kind == SeriesKind::Positioning;
        all.push_back({series.standard,
                       positioning ? "parameters, their names, test conditions" : "straightness, angles, squareness, symbols", false});
    }
    for (const auto older : subject.document.evaluation.also)
        all.push_back({older == document::OlderStandard::Iso230_2_1988 ? "ISO 230-2:1988" : "VDI/DGQ 3441:1977",
                       "parameters by the older standard", false});
    if (std::ranges::any_of(subject.evaluation.series, [](const auto& series) { return series.trace && series.trace->filtered; }))
        all.push_back({"ISO 16610-21", "Gaussian low-pass of traces", false});
    add_uncertainty_sources(all, subject);
    add_decision_sources(all, subject);
    add_surroundings_sources(all, subject);
    std::string words;
    std::vector<std::string> not_compared;
    for (const SourceLine& source : all) {
        words += (words.empty() ? "" : " ") + source.name + ": " + source.used_for + ".";
        if (!source.compared) not_compared.push_back(source.name);
    }
    if (!not_compared.empty())
        words += (words.empty() ? "" : " ") + ("The formulas of " + listed(not_compared)) +
                 " were not compared in full with the printed text.";
    Section section{.heading = "What this rests on", .parts = {Paragraph{Text(words)}}, .set_as = SetAs::Reference};
    return section;
}

/// Program, document and layout, by version and by hash.
Section versions(const Subject& subject) {
    std::vector<Fact> facts;
    facts.push_back({"Program", {Text("wayfolio " + std::string(version()))}});
    if (!subject.document.sha256.empty()) facts.push_back({"Document", {Text(subject.document.sha256)}});
    if (!subject.layout.sha256.empty()) facts.push_back({"Layout “" + subject.layout.name + "”", {Text(subject.layout.sha256)}});
    return {.heading = "Versions, files by SHA-256", .parts = {FactTable{facts}}, .set_as = SetAs::Reference};
}

}  // namespace

std::vector<Section> method_sections(const Subject& subject) {
    std::vector<Section> sections{readings_method(subject)};
    for (Section& section : origins(subject)) sections.push_back(std::move(section));
    sections.push_back(formulas(subject));
    add_section(sections, uncertainty_method(subject));
    return sections;
}

std::vector<Section> basis_sections(const Subject& subject) { return {sources(subject), versions(subject)}; }

std::optional<Section> decision_section(const Subject& subject) {
    if (subject.evaluation.decisions.empty()) return std::nullopt;
    const auto rule = subject.document.evaluation.decision_rule.value_or(document::DecisionRule::Simple);
    Section section{.heading = "Decision rule: " + rule_words(rule), .parts = {Paragraph{marked(rule_explained(rule))}},
                    .set_as = SetAs::Reference};
    if (!subject.document.evaluation.decision_rule)
        section.parts.emplace_back(
            Paragraph{Text("The document names no rule; simple acceptance applies, as every verdict says.")});
    return section;
}

}  // namespace wayfolio::report
