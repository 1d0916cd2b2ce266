#include "report/words/shown_units.hpp"

#include "report/words/names.hpp"
#include "units/readable_unit.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::SeriesEvaluation;

/// One kind of quantity: the unit of the document, and how large its uncertainties and its values are.
struct Kind {
    std::optional<DeviationUnit> unit;
    std::vector<Deviation> uncertainties, values;

    void measured_in(const DeviationUnit& of_series) {
        if (!unit) unit = of_series;
    }
    [[nodiscard]] DeviationUnit chosen(const std::string& by_layout, const DeviationUnit& otherwise) const {
        if (const auto named = units::deviation_unit(by_layout)) return *named;
        return units::readable_unit(unit.value_or(otherwise), uncertainties.empty() ? values : uncertainties);
    }
};

struct Kinds {
    Kind length, angle, rotary, squareness;

    [[nodiscard]] Kind& of(units::Dimension dimension, bool is_rotary) {
        if (dimension == units::Dimension::Length) return length;
        return is_rotary ? rotary : angle;
    }
};

bool is_rotary(const document::Series& series) { return series.position_unit.dimension == units::Dimension::Angle; }

void add_series(Kinds& kinds, const document::Series& series, const SeriesEvaluation& evaluation) {
    kinds.of(series.unit.dimension, is_rotary(series)).measured_in(series.unit);
    Kind& kind = kinds.of(evaluation.unit.dimension, is_rotary(series));
    const auto* headline = evaluate::find_parameter(evaluation, headline_parameter(series, evaluation));
    const Deviation* value = headline ? evaluate::value_of(headline->value) : nullptr;
    if (value)
        kind.values.push_back(abs(*value));
    else if (headline && headline->stated)
        kind.values.push_back(abs(*headline->stated));
}

void add_uncertainties(Kinds& kinds, const document::Document& document, const evaluate::Evaluation& evaluation) {
    for (const auto& entry : evaluation.uncertainty) {
        if (entry.axes) {
            kinds.squareness.uncertainties.push_back(entry.expanded);
            continue;
        }
        const document::Series* series = document::find_series(document, entry.series);
        const SeriesEvaluation* of = evaluate::find_series(evaluation, entry.series);
        // The slope of a straightness is a result in another dimension.
        if (series && of && entry.expanded.dimension() == of->unit.dimension)
            kinds.of(of->unit.dimension, is_rotary(*series)).uncertainties.push_back(entry.expanded);
    }
}

Kinds kinds_of(const document::Document& document, const evaluate::Evaluation& evaluation) {
    Kinds kinds;
    for (const document::Series& series : document.series)
        if (const auto* of = evaluate::find_series(evaluation, series.id)) add_series(kinds, series, *of);
    // What is evaluated as a length though angles were read has the unit of lengths, if any was read.
    for (const SeriesEvaluation& of : evaluation.series)
        if (const auto* series = document::find_series(document, of.id))
            kinds.of(of.unit.dimension, is_rotary(*series)).measured_in(of.unit);
    for (const auto& request : document.squareness)
        if (request.tolerance) kinds.squareness.measured_in(request.tolerance->unit);
    if (kinds.angle.unit) kinds.squareness.measured_in(*kinds.angle.unit);
    for (const auto& one : evaluation.squareness)
        if (const auto* value = evaluate::value_of(one.value)) kinds.squareness.values.push_back(abs(Deviation(*value)));
    add_uncertainties(kinds, document, evaluation);
    return kinds;
}

PositionUnit linear_unit(const document::Document& document, const layouts::Layout& layout) {
    for (const PositionUnit& named : {units::position_millimetre, units::position_metre, units::position_inch})
        if (layout.linear_position == named.spelling) return named;
    const auto linear = [](const document::Series& series) { return !is_rotary(series); };
    const auto first = std::ranges::find_if(document.series, linear);
    return first == document.series.end() ? units::position_millimetre : first->position_unit;
}

/// Numbers that were written, in the unit they were written in.
std::vector<double> written_numbers(const document::Series& series) {
    std::vector<double> numbers;
    for (const document::Run& run : series.runs)
        for (const auto& reading : run.deviations)
            if (reading) numbers.push_back(reading->in(series.unit));
    if (numbers.empty() && series.trace)
        for (const auto& sample : series.trace->many ? series.trace->many->begin : series.trace->samples)
            numbers.push_back(sample.value.in(series.unit));
    return numbers;
}

/// Decimals of the last digit of the numbers. Where they have no last digit, as numbers that were computed, four significant ones of the
/// largest.
std::optional<int> written_decimals(const std::vector<double>& numbers, const DeviationUnit& unit) {
    if (numbers.empty()) return std::nullopt;
    constexpr double finest = 1e-4;  // µm or µrad: no instrument of this trade shows less
    const int most = std::max(0, units::decimals_of_step(finest / unit.in_base));
    for (int decimals = 0; decimals <= most; ++decimals) {
        const double steps_in_one = std::pow(10.0, decimals);
        const bool enough = std::ranges::all_of(numbers, [&](double number) {
            const double steps = number * steps_in_one;
            return std::abs(steps - std::round(steps)) < 1e-6 * std::max(1.0, std::abs(steps));
        });
        if (enough) return decimals;
    }
    double largest = 0;
    for (const double number : numbers) largest = std::max(largest, std::abs(number));
    constexpr int significant = 4;
    return std::clamp(significant - 1 - static_cast<int>(std::floor(std::log10(largest))), 0, most);
}

/// The step of the readings, as a step of what is shown: steps of an angle over a base are steps of height.
std::optional<Deviation> reading_step(const document::Series& series, units::Dimension shown) {
    const auto decimals = written_decimals(written_numbers(series), series.unit);
    if (!decimals) return std::nullopt;
    const Deviation step(std::pow(10.0, -*decimals), series.unit);
    if (step.dimension() == shown) return step;
    if (!series.steps_base_mm) return std::nullopt;
    return Deviation(units::millimetre(step.in(units::microradian)*1e-6 * *series.steps_base_mm));
}

/// The last digit of means and s that were stated: no digit is added to them.
std::optional<int> stated_decimals(const document::Series& series, const DeviationUnit& unit) {
    std::vector<double> numbers;
    for (const document::StatedTarget& target : series.stated_targets)
        for (const auto approach : document::both_approaches)
            for (const auto* value : {&target.mean[approach], &target.s[approach]})
                if (*value && (*value)->dimension() == unit.dimension) numbers.push_back((*value)->in(unit));
    return written_decimals(numbers, unit);
}

}  // namespace

ShownUnits shown_units(const document::Document& document, const evaluate::Evaluation& evaluation, const layouts::Layout& layout) {
    const Kinds kinds = kinds_of(document, evaluation);
    return {.length = kinds.length.chosen(layout.length.unit, units::micrometre),
            .angle = kinds.angle.chosen(layout.angle.unit, units::microradian),
            .rotary = kinds.rotary.chosen(layout.rotary.unit, units::arcsecond),
            .squareness = kinds.squareness.chosen(layout.angle.unit, units::microradian),
            .linear = linear_unit(document, layout)};
}

Shown shown_of(const ShownUnits& units, const document::Series& series, const DeviationUnit& unit, units::NumberStyle style) {
    const bool rotary = is_rotary(series), length = unit.dimension == units::Dimension::Length;
    Shown shown{.unit = length   ? units.length
                        : rotary ? units.rotary
                                 : units.angle,
                .position = rotary ? units::position_degree : units.linear,
                .style = style};
    if (const auto step = reading_step(series, unit.dimension)) {
        shown.reading_decimals = units::decimals_of_step(step->in(shown.unit));
        shown.statistics_decimals = *shown.reading_decimals + 1;
    } else if (const auto stated = stated_decimals(series, shown.unit)) {
        shown.statistics_decimals = *stated;
    }
    shown.decimals = units::decimals_of_result({}, shown.reading_decimals);
    return shown;
}

}  // namespace wayfolio::report
