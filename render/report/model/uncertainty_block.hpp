#pragma once
#include "report/model/text.hpp"
#include "report/model/verdict.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

/// What the values are worth, in the words and shares of one page.
namespace wayfolio::report {

/// Whose part of an uncertainty it is: what the program counts by itself, by its kind, and what the document lists.
enum class PartOf { Instrument, Expansion, Listed, Drift, Scatter, KnownBias };

/// A part of U.
struct UncertaintyPart {
    PartOf of;
    double share;  ///< of U, by its share of the variance; all parts of a row together 1
};

/// One result with its U: how far it reaches towards the limit, what it is made of, and what was decided with it.
struct UncertaintyRow {
    Text name;  ///< "Positioning EXX, A"
    bool has_limit = false;
    std::optional<double> value_of_limit, U_of_limit;  ///< of the limit on whose scale the row is drawn; empty: no scale
    std::vector<UncertaintyPart> parts;                ///< in the order of PartOf; empty: not divided
    Text not_divided;                                  ///< why: "stated"
    Text u, freedom, k, coverage, U;
    std::string unit;  ///< of u and U
    Verdict verdict;
    std::string words;  ///< what bar and parts show, for those who hear it
};

/// What a contributor brings to each result of a table.
struct ContributorRow {
    std::optional<PartOf> of;  ///< empty: no part of any U
    Text name;
    std::vector<Text> cells;
    Text basis;
};

/// What a column is of, in two short lines; the first may be empty.
struct ColumnHead {
    Text above, below;
};

struct ContributorTable {
    std::string key, units;  ///< "µm, µrad": those of the columns
    std::string basis_head = "Basis";
    std::vector<ColumnHead> heads;
    std::vector<ContributorRow> rows;  ///< the last combines the others
};

/// One outcome of the rule, and how many results have it.
struct OutcomeRow {
    Standing standing;
    Text word, when, count, example;
};

/// A decision rule drawn on the scale of one limit. All numbers in the unit that its words show.
struct DecisionPicture {
    struct Zone {
        double from, to;
        bool guard;  ///< hatched: within the guard band
        Standing standing;
        Text word;  ///< empty: belongs to the zone before it
    };
    double low, high, value, limit;
    std::optional<double> U;
    Text value_words, U_words, limit_words;
    std::vector<Zone> zones;
    std::vector<std::pair<double, std::string>> edges;  ///< of the guard bands
    Text width_words;                                   ///< "w = U"; empty where there is no guard band
    Text over_words;                                    ///< of the band over the limit, where scatter makes that one wider; else empty
    Verdict verdict;
    std::vector<Text> margins;  ///< margin, margin after U, probability of conformity
    std::string alternative;
};

}  // namespace wayfolio::report
