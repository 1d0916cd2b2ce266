#pragma once
#include "gather/exports/export_faults.hpp"
#include "gather/mapping/mapping.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// One column of readings, found in a head.
struct ValuePlace {
    std::size_t cell = 0;             ///< from 0
    std::string run;                  ///< the run that the column is; "" where rows say it
    std::optional<Decimal> position;  ///< the target that it is
};

/// Where everything stands in the rows below a head, from 0.
struct ColumnPlan {
    std::vector<std::vector<ValuePlace>> values;  ///< by ExportMapping::values
    std::optional<std::size_t> position, approach, run, mark, trace_position, trace_value;
    std::vector<std::size_t> time, surroundings;
    std::size_t width = 0;   ///< cells of the head; 0 where there is none
    std::size_t anchor = 0;  ///< a column with a name, which a second head has again
    std::string anchor_head;
};

/// Finds the heads of an export, by the names of the columns that its mapping wants.
class HeadFinder {
public:
    HeadFinder(const ExportMapping& entry, const std::vector<SeriesMapping>& series);

    /// Whether columns are given by number alone: then there is no head.
    [[nodiscard]] bool by_number() const { return names_.empty() && !has_pattern_; }
    [[nodiscard]] ColumnPlan plan_by_number() const;
    /// The plan, if the row is a head. What contradicts the mapping there is noted in `faults`.
    std::optional<ColumnPlan> plan_of(const Row& row, ExportFaults& faults);
    /// No head was found in the whole file: what came nearest.
    void note_no_head(ExportFaults& faults) const;

private:
    using Heads = std::map<std::string_view, std::vector<std::size_t>>;

    [[nodiscard]] std::optional<std::size_t> place_of(const Column& column, const Heads& heads) const;
    [[nodiscard]] std::vector<ValuePlace> value_places(const ValueColumns& values, const Row* row, const Heads& heads) const;
    void check_units(const Row& row, const ColumnPlan& plan, ExportFaults& faults) const;
    [[nodiscard]] ColumnPlan plan_with(const Row* row, const Heads& heads) const;
    void remember_nearest(const Row& row, const Heads& heads);

    const ExportMapping& entry_;
    const std::vector<SeriesMapping>& series_;
    std::vector<std::string_view> names_;  ///< of all columns that are given by name
    bool has_pattern_ = false;
    std::size_t nearest_found_ = 0;
    Spot nearest_;
    std::string nearest_lacks_, nearest_hint_;
};

/// Of a pattern with * for any text and # for a number: the text in the place of #, "" where there is none; nothing where `head` is
/// another.
std::optional<std::string> number_in_head(std::string_view pattern, std::string_view head, const Dialect& dialect);

/// The unit at the end of a head, in brackets or behind a blank: um for "Deviation [µm]". Nothing where there is none that is known.
std::optional<std::string> unit_in_head(std::string_view head);

}  // namespace wayfolio::gather
