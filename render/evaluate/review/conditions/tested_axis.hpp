#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// What the conditions of the standard are judged on. Lengths in mm, rotary in degrees.
struct TestedAxis {
    bool rotary;
    PositionUnit written;  ///< in which the document has the positions, and texts the lengths
    double from, to;     ///< ends of the travel: the machine's, else the outermost targets
    double first, last;  ///< outermost targets
    std::size_t targets;
    bool counted;                    ///< there are runs to count, not only stated values
    std::size_t positive, negative;  ///< runs
    std::size_t least;               ///< fewest readings at any target, over both directions
    std::string standard;
    std::vector<std::string> agreed;  ///< what was agreed in place of the standard's test

    [[nodiscard]] double travel() const { return to - from; }
    [[nodiscard]] double measured() const { return last - first; }
    [[nodiscard]] bool one_run_each_way() const { return positive <= 1 && negative <= 1; }
    /// "1 600 mm", "30 in", "360°" of an amount in mm or degrees
    [[nodiscard]] std::string text(double amount) const;
    /// In files: "mm" or "deg".
    [[nodiscard]] std::string unit() const { return rotary ? "deg" : "mm"; }
};

/// @param targets at least one, rising
TestedAxis tested_axis(const document::Document& document, const document::Series& series, Targets targets);

/// Over 2 000 mm or 360 degrees the whole travel is tested with one approach each way
/// [seen: clause 6.2 in the national adoption GOST ISO 230-2-2016].
bool is_long(const TestedAxis& axis);

/// The test of a short axis made over part of a long one, with several runs: in addition, where agreed [seen: clause 6.2, as
/// above].
bool is_additional_test(const TestedAxis& axis);

/// Number of targets, their spacing, principal positions of a rotary axis.
void add_target_conditions(std::vector<Condition>& conditions, const TestedAxis& axis, Targets targets);

/// Runs in each direction: five, or one on a long axis.
void add_run_conditions(std::vector<Condition>& conditions, const TestedAxis& axis);

/// What the document has to say of warm-up, reference temperature and thermal expansion.
void add_stated_conditions(std::vector<Condition>& conditions, const document::Document& document, const document::Series& series);

}  // namespace wayfolio::evaluate
