#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/finding_code.hpp"

#include <string>
#include <vector>

/// "Can I pack up?": what would be missed at the desk while the instrument still stands on the machine. Nothing is ever
/// corrected.
namespace wayfolio::evaluate {

struct BeforeLeaving {
    FindingCode code;
    std::string what;
    std::string where;     ///< the place in words, with its JSON Pointer
    std::string how_sure;  ///< the statistic and its level, "certain", or "common practice, no source"
    std::string act;       ///< what to do before leaving
};

/// Everything found, the most important first.
std::vector<BeforeLeaving> before_leaving(const document::Document& document, const Evaluation& evaluation);

/// Whether any of them needs the machine.
bool open_at_machine(const std::vector<BeforeLeaving>& lines);

/// One sentence: what is open at the machine and at the desk. It says that nothing is left to do at the machine only where no
/// finding needs the machine.
std::string last_line(const std::vector<BeforeLeaving>& lines);

/// "series x, run 3 positive (/series/0/runs/4)"; runs are counted within their direction, from 1.
std::string run_place(const document::Series& series, std::size_t place, std::size_t run);
/// "run 3 positive"
std::string run_name(const document::Series& series, std::size_t run);

/// A cosine error above a tenth of U(E), or offsets that cannot resolve it.
std::vector<Warning> cosine_warnings(const document::Document& document, const Evaluation& evaluation);

/// Known biases that exceed a tenth of U(E) and were neither corrected nor covered, the cosine error apart, which has its own; and an
/// asked correction for the air that cannot be had.
std::vector<Warning> bias_warnings(const document::Document& document, const Evaluation& evaluation);

/// The parts of before_leaving().
void add_reading_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_state_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
/// Series all of whose runs stand in another one to the last digit.
void add_copied_series(std::vector<BeforeLeaving>& lines, const document::Document& document);
void add_plane_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_limit_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_setup_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
/// What was measured against what was planned.
void add_plan_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document);
void add_missing_evidence(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_unmet_conditions(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_paper_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);

}  // namespace wayfolio::evaluate
