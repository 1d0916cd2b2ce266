#pragma once
#include "evaluate/evaluation.hpp"

#include <string>
#include <vector>

/// "Can I pack up?": what would be missed at the desk while the instrument still stands on the machine. Nothing is ever
/// corrected.
namespace wayfolio::evaluate {

/// What a line is about. Readings and set-up need the machine; papers can wait for the desk.
enum class Concern { Readings, Setup, Conditions, Papers };

struct BeforeLeaving {
    Concern concern;
    std::string what;
    std::string where;     ///< the place in words, with its JSON Pointer
    std::string how_sure;  ///< the statistic and its level, "certain", or "common practice, no source"
    std::string act;       ///< what to do before leaving
};

/// Everything found, the readings first.
std::vector<BeforeLeaving> before_leaving(const document::Document& document, const Evaluation& evaluation);

/// A plain last line: what stands in the way, or that nothing does.
std::string last_line(const std::vector<BeforeLeaving>& lines);

/// A cosine error above a tenth of U(E), or offsets that cannot resolve it.
std::vector<Warning> cosine_warnings(const document::Document& document, const Evaluation& evaluation);

/// The parts of before_leaving().
void add_reading_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_setup_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);
void add_paper_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation);

}  // namespace wayfolio::evaluate
