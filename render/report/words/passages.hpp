#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// Sentences, lists and tables that blocks are composed of, in files by what they are about.
namespace wayfolio::report {

// The answer page (answer_words.cpp), by plain rules over the results. The program never diagnoses a machine.

Text answer_lead(const Subject& subject, const std::vector<SeriesView>& views);
Text answer_body(const Subject& subject, const std::vector<SeriesView>& views);
/// "Not corrected in EXX: the air values that the instrument took, -7.6 µm over the travel; U is enlarged by it": the largest known bias
/// that weakens a result (bias_words.cpp); empty where there is none.
Text known_bias_sentence(const Subject& subject, const std::vector<SeriesView>& views);
/// What was taken off the readings of a series for the air, and the headline value without it; empty where it was not asked for.
Text air_correction_words(const SeriesView& view, const std::string& headline);
/// What the trace of a series says by itself, in one sentence; empty where it has none (trace_words.cpp).
std::string trace_words(const SeriesView& view);
/// The same under a heading, one fact a line.
std::optional<Section> trace_section(const SeriesView& view);
/// What makes the verdicts worth less than they say: U that covers less than 95 %, scatter, a known bias, failed checks, contributors that
/// U lacks.
std::vector<Weakness> weaknesses(const Subject& subject, const std::vector<SeriesView>& views);
std::vector<Text> answer_cautions(const Subject& subject);
// What to do about it (next_steps.cpp).

/// The engineer's own remarks that begin "What to do next:", then what would change a verdict: how much smaller U and its largest
/// contributor would have to be, or the error at which places.
std::vector<Text> what_next(const Subject& subject, const std::vector<SeriesView>& views);
/// Places of the targets that set a parameter, in rising order: "0 m and 6.20 m"; empty where it has none.
std::string setting_places(const SeriesView& view, std::string_view parameter);
/// Remarks that are advice ("What to do next: ...") stand on the first page only.
bool is_advice(std::string_view remark);

/// Who issued the report, with address, accreditation and certificates of the instruments, and which edition it is; nothing where the
/// document names no laboratory.
std::optional<Issuer> issuer_of(const document::Document& document);
/// When it was issued and what it replaces; empty where the document tells neither. Below an issuer that says so: why it was replaced.
std::vector<Text> issue_note(const document::Document& document, bool below_issuer);

// Who, what, where, when (facts.cpp): short for the first page, whole for the facts pages.

/// Customer, order, machine, axis, place, dates, standards.
std::vector<Fact> short_facts(const Subject& subject);
/// Job, laboratory, customer, machine with its axes and condition, instruments and traceability.
std::vector<Section> fact_sections(const Subject& subject);
/// Whether the report has a first page that says what it is about: what stands there is not said again.
bool has_answer(const Subject& subject);
/// Each instrument and square with its certificate and what that leads to, and which one measured which series and when
/// (traceability_words.cpp); nothing where the document names none.
std::optional<Section> traceability_section(const Subject& subject);
/// "2026-05-11 08:10 to 10:20": first start to last end of the runs, by the clock they were written in; empty where none is stated.
std::string measured_when(const document::Series& series);
/// "2026-05-11", or "2026-05-11 to 2026-05-13"; empty where the document gives no date.
std::string measured_words(const document::Job& job);
/// Those whom the layout asks for, else those whom the document names, else two empty lines to sign on.
std::vector<Signature> signatures_of(const Subject& subject);
/// Adds a fact unless `value` is empty.
void add_fact(std::vector<Fact>& facts, const std::string& name, const std::string& value);
/// Adds a section if there is one.
void add_section(std::vector<Section>& sections, std::optional<Section> section);

// The set-up (setup_words.cpp).

/// How the measurement was set up: feed, dwell, measurement lines; every check with reading, limit, verdict and basis; then the
/// cosine error of a beam that stands at an angle to its axis. Only what the document tells of.
/// @param told  measurement lines that are told of elsewhere
std::vector<Section> setup_sections(const Subject& subject, const std::vector<const document::MeasurementLine*>& told = {});
/// " Two set-up checks failed.", or nothing.
std::string setup_outside_words(const evaluate::Evaluation& evaluation);
/// " All five set-up checks passed.", " One of five set-up checks failed."; nothing where the document has none.
std::string setup_words(const evaluate::Evaluation& evaluation);
/// "One set-up check failed: beam against axis, X, 2.1 mm, at most 1.5 mm"; the first of several; or nothing.
std::string failed_checks(const Subject& subject);

// The method (method_words.cpp).

/// How each number was made, in words that an auditor can repeat with a spreadsheet; what is from memory of a standard says so.
std::vector<Section> method_sections(const Subject& subject);
/// What the numbers rest on: sources with their editions, and the versions of program, document and layout.
std::vector<Section> basis_sections(const Subject& subject);
/// The rule behind every verdict, and the defaults that were used; nothing where no limit was decided on.
std::optional<Section> decision_section(const Subject& subject);

/// How uncertainties were combined, where there are any (uncertainty/uncertainty_method.cpp).
std::optional<Section> uncertainty_method(const Subject& subject);

// Uncertainty budgets (uncertainty/budget_words.cpp).

/// "A", "straightness", "local straightness over 300 mm": what a budget is of.
std::string budget_parameter(const SeriesView& view, const evaluate::ParameterUncertainty& entry);
/// "31", or "∞".
std::string freedom_text(const std::optional<double>& degrees, const units::NumberStyle& style);
/// A share of the variance (0 to 1) in whole percent: "47", "< 1".
std::string share_text(double share, const units::NumberStyle& style);

// A compensation table (compensation_words.cpp): its numbers to the increment, its convention and its cautions.

/// Series, kind, spacing, reference point, increment, reversal.
std::vector<Fact> table_facts(const Subject& subject, const evaluate::CompensationEvaluation& made);
/// "-36 to 0 µm"
std::string correction_words(const Subject& subject, const evaluate::CompensationEvaluation& made, const Deviation& low,
                             const Deviation& high);
/// The sign convention, what the table is made of, then its largest value worked through with both positions.
std::vector<Text> convention(const Subject& subject, const evaluate::CompensationEvaluation& made);
/// What to check before loading and to do afterwards, then what this table cannot do.
std::vector<Text> table_cautions(const evaluate::CompensationEvaluation& made);
/// A sentence of the evaluation as a page prints it: with true minus signs.
std::string page_words(std::string sentence);
/// Position, correction and its change of each point; of two tables side by side.
PlainTable points_table(const Subject& subject, const evaluate::CompensationEvaluation& made);

}  // namespace wayfolio::report
