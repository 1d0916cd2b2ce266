#pragma once
#include "gather/exports/export_faults.hpp"
#include "gather/mapping/mapping.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace wayfolio::gather {

/// What makes a run: its name in the export, and the approach.
struct RunKey {
    std::string_view name;
    Approach approach = Approach::Positive;
};

/// One reading on its way from an export to its series.
struct Reading {
    std::optional<Decimal> position;  ///< of its target; absent where the order of the rows says it
    std::optional<Decimal> value;     ///< in the unit and the sign of the series; absent where missing
    std::string_view excluded;        ///< why it does not count; "" where it does
    std::string_view time;            ///< ISO 8601, "" where unknown
    Spot at;
};

/// A reading that was kept: 16 bytes, for there may be millions.
struct KeptReading {
    std::int64_t digits = 0;
    std::uint32_t line = 0;
    std::uint16_t file = 0;
    std::int8_t exponent = 0;
    enum State : std::uint8_t { None, Missing, Present } state = None;
};

struct CollectedRun {
    std::string name;
    std::optional<double> number;  ///< where the name is one
    Approach approach = Approach::Positive;
    std::string started, ended;
    std::vector<KeptReading> readings;            ///< by target, in the order in which targets were met; shorter where later ones came
    std::map<std::size_t, std::string> excluded;  ///< reason by target
    std::size_t taken = 0;                        ///< readings so far
    std::uint16_t file = 0;                       ///< of the last one
    Spot last;
    double last_position = 0;
    bool rising = false, falling = false;  ///< one step at least did
};

/// Puts the readings of one series together, whatever the order in which they come, and notes what cannot be: a place read twice, a
/// position that is no target.
class SeriesCollector {
public:
    explicit SeriesCollector(const SeriesMapping& mapping);

    /// @param faults of the export that is being read
    void begin_file(std::uint16_t file, ExportFaults& faults, const ExportMapping& entry);
    void add(const RunKey& run, const Reading& reading);
    /// What can be said only when a file has been read: too few rows for the targets, targets that fall in a run named positive.
    void end_file();

    [[nodiscard]] const SeriesMapping& mapping() const { return mapping_; }
    /// Positions in the order in which KeptReading counts them.
    [[nodiscard]] const std::vector<Decimal>& targets() const { return targets_; }
    [[nodiscard]] const std::vector<CollectedRun>& runs() const { return runs_; }
    /// Files that gave readings, in their order.
    [[nodiscard]] const std::vector<std::uint16_t>& files() const { return files_; }
    [[nodiscard]] bool empty() const { return runs_.empty(); }
    /// The targets are those of a document that has the series already.
    void set_targets(std::vector<Decimal> targets);

private:
    CollectedRun& run_of(const RunKey& key);
    static constexpr std::size_t no_target = ~std::size_t{0};  ///< of a million targets none goes through memory, as an optional does
    std::size_t target_of(const CollectedRun& run, const Reading& reading);
    [[nodiscard]] bool is_next_target(const Decimal& position) const;
    std::optional<std::size_t> target_at(const Decimal& position, Spot at);
    std::optional<std::size_t> next_target(const CollectedRun& run, Spot at);
    void note_twice(const CollectedRun& run, std::size_t target, const KeptReading& first, Spot at);
    static void note_time(CollectedRun& run, std::string_view time);
    void note_way(CollectedRun& run, double position) const;

    const SeriesMapping& mapping_;
    std::vector<Decimal> targets_;
    std::vector<double> positions_;  ///< of the targets
    bool targets_stated_;
    std::unordered_map<double, std::size_t> places_;  ///< of targets
    std::size_t last_target_ = 0, last_run_ = 0;
    std::vector<CollectedRun> runs_;
    std::unordered_map<std::string, std::size_t> run_places_;
    std::vector<std::uint16_t> files_;
    std::vector<std::string> file_names_;
    std::uint16_t file_ = 0;
    ExportFaults* faults_ = nullptr;
    const ExportMapping* entry_ = nullptr;
};

}  // namespace wayfolio::gather
