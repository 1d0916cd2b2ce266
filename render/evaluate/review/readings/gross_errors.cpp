#include "evaluate/review/readings/gross_errors.hpp"

#include "evaluate/numbers/f_test.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace wayfolio::evaluate {
namespace {

using Shape = std::vector<double>;  ///< one value per target, rising position

constexpr std::size_t fewest_targets = 5;

/// What a reading in one unit, or with its decimal point in one place, looks like when it is taken for the other.
struct Confusion {
    double factor;
    const char* words;
    GrossError::Cause cause = GrossError::Cause::Unit;
};
constexpr std::array<Confusion, 6> decimal_slips{{{10, "ten times too large", GrossError::Cause::Decimal},
                                                  {0.1, "ten times too small", GrossError::Cause::Decimal},
                                                  {100, "a hundred times too large", GrossError::Cause::Decimal},
                                                  {0.01, "a hundred times too small", GrossError::Cause::Decimal},
                                                  {1e4, "ten thousand times too large", GrossError::Cause::Decimal},
                                                  {1e-4, "ten thousand times too small", GrossError::Cause::Decimal}}};
constexpr std::array<Confusion, 6> length_confusions{{{1e-3, "mm written for um"},
                                                      {1e3, "um written for mm"},
                                                      {1 / 0.0254, "uin written for um"},
                                                      {0.0254, "um written for uin"},
                                                      {1e-3 / 25.4, "in written for um"},
                                                      {25.4e3, "um written for in"}}};
constexpr std::array<Confusion, 4> angle_confusions{{{1e-3, "mrad written for urad"},
                                                     {1e3, "urad written for mrad"},
                                                     {4.84813681, "urad written for arcsec"},
                                                     {1 / 4.84813681, "arcsec written for urad"}}};

/// The confusion that a factor stands for, if any.
const Confusion* confusion_of(double factor, units::Dimension dimension) {
    constexpr double near = 0.15, near_ten = 0.25;  // by choice: no two of them are closer than that
    const Confusion* found = nullptr;
    const auto look = [&](std::span<const Confusion> all) {
        for (const Confusion& one : all)
            if (std::abs(factor / one.factor - 1) < (one.cause == GrossError::Cause::Decimal ? near_ten : near)) found = &one;
    };
    look(decimal_slips);
    if (dimension == units::Dimension::Length)
        look(length_confusions);
    else
        look(angle_confusions);
    return found;
}

/// The readings of some runs by target, each sorted once: the median without any one run is then a matter of places.
class Medians {
public:
    explicit Medians(const std::vector<const RunResiduals*>& runs) {
        for (std::size_t i = 0; !runs.empty() && i < runs.front()->readings.size(); ++i) {
            std::vector<double> column;
            column.reserve(runs.size());
            for (const auto* run : runs) column.push_back(run->readings[i]);
            std::sort(column.begin(), column.end());
            columns_.push_back(std::move(column));
        }
    }

    /// Of all runs; none where there is no run.
    [[nodiscard]] std::optional<Shape> of_all() const {
        if (columns_.empty()) return std::nullopt;
        Shape result;
        for (const auto& column : columns_) result.push_back(median(column.size(), [&](std::size_t place) { return column[place]; }));
        return result;
    }
    /// Of all runs but this one, of two at least.
    [[nodiscard]] Shape without(const RunResiduals& run) const {
        Shape result;
        result.reserve(columns_.size());
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            const auto& column = columns_[i];
            // Sorted: what is less than the reading that is left out stands before it, all else moves up by one.
            result.push_back(median(column.size() - 1, [&](std::size_t place) {
                return column[place] < run.readings[i] ? column[place] : column[place + 1];
            }));
        }
        return result;
    }

private:
    template <class Sorted>
    static double median(std::size_t count, const Sorted& at) {
        return count % 2 == 1 ? at(count / 2) : (at(count / 2) + at(count / 2 - 1)) / 2;
    }
    std::vector<std::vector<double>> columns_;
};

Shape centred(Shape profile) {
    const double level = mean(profile);
    for (double& value : profile) value -= level;
    return profile;
}

double squares_of_difference(const Shape& a, const Shape& b, double factor) {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - factor * b[i]) * (a[i] - factor * b[i]);
    return sum;
}

/// What profiles of so many targets are held against.
struct Levels {
    explicit Levels(double targets)
        : shape(1, targets - 2, shape_level), order(targets - 2, targets - 2, gross_error_level), place(targets, targets, misplaced_level),
          freedom_(targets - 1) {}

    // On a flat axis the reference is scatter, of which every other run is some small multiple: a shape must be there to be turned.
    static constexpr double shape_level = 1e-4;
    FTest shape, order, place;

    /// Student's t that a mean beyond it stands out with, at 1 %.
    double t() {
        if (!t_) t_ = boost::math::quantile(boost::math::complement(boost::math::students_t(freedom_), 0.005));
        return *t_;
    }

private:
    double freedom_;
    std::optional<double> t_{};
};

std::optional<GrossError> reversed(const Shape& shape, const Shape& reference, double direct, Levels& levels) {
    Shape turned = shape;
    std::reverse(turned.begin(), turned.end());
    const double left = squares_of_difference(turned, reference, 1);
    if (!(left < direct)) return std::nullopt;
    if (left > 0 && !levels.order.stands_out(direct / left)) return std::nullopt;
    return GrossError{GrossError::Cause::Order, {}, 1, {}, left > 0 ? levels.order.p(direct / left) : 0};
}

/// Compares the readings of one profile with a trusted one.
std::optional<GrossError> compare(const Shape& raw, const Shape& raw_reference, units::Dimension dimension, Levels& levels) {
    const Shape shape = centred(raw), reference = centred(raw_reference);
    const double length = dot(reference, reference), freedom = static_cast<double>(shape.size()) - 2;
    if (!(length > 0)) return std::nullopt;
    const double factor = dot(shape, reference) / length;
    const double direct = squares_of_difference(shape, reference, 1), scaled = squares_of_difference(shape, reference, factor);
    // The same but for the rounding of doubles: what is left over says nothing, and may even be negative.
    constexpr double dust = 1e-20;
    if (direct <= dust * length) return std::nullopt;
    const auto order = reversed(shape, reference, direct, levels);
    const double own = dot(shape, shape);
    if (scaled > 0 && !levels.shape.stands_out(std::max(0.0, own - scaled) / (scaled / freedom))) return order;
    const double p = scaled > 0 ? levels.shape.p(std::max(0.0, direct - scaled) / (scaled / freedom)) : direct > 0 ? 0 : 1;
    if (p < gross_error_level && std::abs(factor + 1) < 0.5) {
        // A straight line turned round looks the same either way: the levels decide, for they turn with the sign only.
        Shape turned = raw;
        std::reverse(turned.begin(), turned.end());
        if (order && squares_of_difference(turned, raw_reference, 1) < squares_of_difference(raw, raw_reference, -1))
            return order;
        return GrossError{GrossError::Cause::Sign, {}, factor, {}, p};
    }
    if (const auto* confusion = p < gross_error_level ? confusion_of(factor, dimension) : nullptr)
        return GrossError{confusion->cause, {}, factor, confusion->words, p};
    return order;
}

/// Whether a run lies neither above nor below a profile: t test at 1 %. One that does is a run apart.
bool on_level(const Shape& run, const Shape& profile, Levels& levels) {
    Shape difference = run;
    for (std::size_t i = 0; i < run.size(); ++i) difference[i] -= profile[i];
    const double standard = standard_deviation(difference) / std::sqrt(static_cast<double>(run.size()));
    return std::abs(mean(difference)) <= standard * levels.t();
}

/// A run that lies on the other direction's readings, and clearly off those of its own.
std::optional<GrossError> misplaced(const Shape& run, const Shape& own, const Shape& other, Levels& levels) {
    const double to_own = squares_of_difference(run, own, 1), to_other = squares_of_difference(run, other, 1);
    if (!(to_other < to_own) || !on_level(run, other, levels)) return std::nullopt;
    if (to_other > 0 && !levels.place.stands_out(to_own / to_other)) return std::nullopt;
    return GrossError{GrossError::Cause::Direction, {}, 1, {}, to_other > 0 ? levels.place.p(to_own / to_other) : 0};
}

std::vector<const RunResiduals*> complete_runs(const std::vector<RunResiduals>& runs, Approach approach) {
    std::size_t targets = 0;
    for (const auto& run : runs) targets = std::max(targets, run.readings.size());
    std::vector<const RunResiduals*> complete;
    for (const auto& run : runs)
        if (run.approach == approach && run.readings.size() == targets && targets >= fewest_targets) complete.push_back(&run);
    return complete;
}

}  // namespace

std::vector<GrossError> find_gross_errors(const Runs& runs, units::Dimension dimension) {
    std::vector<GrossError> found;
    const auto positive = complete_runs(runs, Approach::Positive), negative = complete_runs(runs, Approach::Negative);
    const auto add = [&](std::optional<GrossError> error, std::optional<std::size_t> run) {
        if (!error) return;
        error->run = run;
        found.push_back(*error);
    };
    if (positive.empty() && negative.empty()) return found;
    Levels levels(static_cast<double>((positive.empty() ? negative : positive).front()->readings.size()));
    const Medians of_positive(positive), of_negative(negative);
    const auto up = of_positive.of_all(), down = of_negative.of_all();
    for (const auto* own : {&positive, &negative}) {
        if (own->size() < 3) continue;
        const auto& other = own == &positive ? down : up;
        for (const auto* run : *own) {
            const Shape reference = (own == &positive ? of_positive : of_negative).without(*run);
            auto error = compare(run->readings, reference, dimension, levels);
            if (!error && other) error = misplaced(run->readings, reference, *other, levels);
            add(error, run->run);
        }
    }
    if (up && down) add(compare(*down, *up, dimension, levels), std::nullopt);
    return found;
}

}  // namespace wayfolio::evaluate
