#pragma once
#include "gather/exports/decimal.hpp"
#include "gather/mapping/mapping.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace wayfolio::gather {

/// One row of an environment record.
struct SurroundingsSample {
    std::string time;
    std::vector<std::pair<const SurroundingsColumn*, Decimal>> values;  ///< in the units of the document
};

/// The environment records of all exports.
struct Surroundings {
    static constexpr std::size_t most_samples = 100'000;
    std::vector<SurroundingsSample> samples;
    std::vector<std::uint16_t> files;
};

/// A number of a column in the unit that the document has for it.
Decimal in_document_unit(const Decimal& number, const std::string& unit);

/// The samples of a record on the fly, as a file beside the document: position and value, a pair a line.
struct TraceText {
    static constexpr std::size_t most_samples = 10'000'000;  ///< they are held as text: some 200 MB
    const TraceSource* source = nullptr;
    std::string text;
    std::size_t samples = 0;
    std::vector<std::uint16_t> files;
};

/// How many of the unit of a deviation are in one unit of positions: 1000 from mm to um.
double deviation_units_in(const SeriesMapping& series);

}  // namespace wayfolio::gather
