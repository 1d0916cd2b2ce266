#pragma once
#include "gather/shapes/collector.hpp"
#include "gather/shapes/head.hpp"
#include "gather/shapes/motion.hpp"
#include "gather/shapes/surroundings.hpp"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace wayfolio::gather {

/// What is collected from all exports.
struct Collected {
    std::vector<std::unique_ptr<SeriesCollector>> series;  ///< by Mapping::series
    Surroundings surroundings;
    std::map<std::size_t, TraceText> traces;  ///< by place in Mapping::series
};

/// An export that is read: which one, and whether its rows come from a sheet, where cells without content are not there.
struct ExportBeingRead {
    std::uint16_t file = 0;
    std::string name;
    bool is_sheet = false;
};

/// Turns the rows of one export into readings, as its mapping says. A row has readings where it stands below a head; what stands above it
/// may say run, approach and time; further heads begin further blocks.
class ExportReader {
public:
    ExportReader(const ExportMapping& entry, const Mapping& mapping, ExportBeingRead file, ExportFaults& faults, Collected& into);
    void row(const Row& row);
    void finish();

    [[nodiscard]] std::size_t rows() const { return rows_; }                ///< that held readings
    [[nodiscard]] std::size_t passed_over() const { return passed_over_; }  ///< heads, lines above them, empty ones, other blocks
    [[nodiscard]] std::size_t runs_by_motion() const { return runs_by_motion_; }

private:
    struct AboveCell {
        std::string text;
        Spot at;
        std::size_t blocks = 0, times = 0;  ///< heads before it; how often it was met
    };
    /// A reading whose approach is not known yet.
    struct Waiting {
        std::size_t series = 0;
        Reading reading;
        std::string excluded, time;
    };
    /// What the lines above say for all rows below.
    struct BlockFacts {
        std::optional<Approach> approach;
        std::string run, time;
    };
    /// Texts hold until the next row is read.
    struct RowFacts {
        std::optional<Decimal> position;
        std::optional<Approach> approach;
        std::string_view run, excluded, time;
        std::string_view listed;  ///< a cell of listed marks
        bool sound = true;

        /// As at the beginning of a row. All of it made anew would be cleared as one block, which takes longer than the cells it is for.
        void begin(const BlockFacts& block) {
            position.reset();
            approach = block.approach;
            run = {}, excluded = {}, listed = {};  // not one from another, which would be read back at once
            time = block.time;
            sound = true;
        }
    };

    void begin_block(ColumnPlan plan, const Row& row);
    bool look_above(const Row& row);
    [[nodiscard]] const AboveCell* above(const std::optional<Where>& where) const;
    const AboveCell* required_above(const std::optional<Where>& where, const Row& row);
    void data_row(const Row& row);
    void check_width(const Row& row);
    void read_facts(const Row& row, RowFacts& facts);
    void read_position(const Row& row, RowFacts& facts);
    void read_approach(const Cell& cell, std::optional<Approach>& into);
    void read_run(const Row& row, RowFacts& facts);
    void read_time(const Row& row, RowFacts& facts);
    void read_mark(const Row& row, RowFacts& facts);
    void read_surroundings(const Row& row, const RowFacts& facts);
    void read_trace(const Row& row);
    void read_values(const Row& row, RowFacts& facts);
    void read_value(const Row& row, const ValueColumns& values, const ValuePlace& place, RowFacts& facts);
    void take_listed(const ValuePlace& place, const RowFacts& facts, Reading& reading) const;
    std::optional<Decimal> nearest_target(const SeriesMapping& series, const Decimal& actual, const Cell& cell);
    void give(const ValueColumns& values, const RowFacts& facts, const ValuePlace& place, const Reading& reading);
    void give_waiting(std::optional<Approach> approach);
    std::optional<Decimal> number_at(const Cell& cell, std::size_t place);
    void note_no_number(const Cell& cell, std::size_t place);
    [[nodiscard]] bool is_missing(const Cell& cell) const;
    const Cell& cell_at(const Row& row, std::size_t place) {
        return place < row.cells.size() ? row.cells[place] : absent_cell(row, place);
    }
    const Cell& absent_cell(const Row& row, std::size_t place);
    [[nodiscard]] std::string head_words(std::size_t place) const;

    const ExportMapping& entry_;
    const Mapping& mapping_;
    ExportBeingRead file_;
    ExportFaults& faults_;
    Collected& into_;
    HeadFinder heads_;
    ColumnPlan plan_;
    std::vector<std::string> head_texts_;
    std::vector<std::string> above_words_;
    std::map<std::string, AboveCell, std::less<>> above_;
    std::optional<MotionRuns> motion_;
    MotionRuns::Step step_;
    std::vector<Waiting> waiting_;
    std::map<std::pair<std::optional<Approach>, double>, std::size_t> repeats_;  ///< readings so far, by approach and position
    BlockFacts block_facts_;
    RowFacts row_facts_;
    std::string run_text_, time_text_;  ///< of the row at hand, where no cell holds them
    Cell absent_;
    bool approach_by_values_;  ///< each column of readings says its own
    bool in_data_ = false, skipping_ = false;
    std::size_t blocks_ = 0, rows_ = 0, passed_over_ = 0, runs_by_motion_ = 0, first_width_ = 0;
};

}  // namespace wayfolio::gather
