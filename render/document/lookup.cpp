#include "document/document.hpp"

#include <algorithm>

namespace wayfolio::document {

const Exclusion* Run::exclusion(std::size_t target) const {
    const auto found = std::ranges::find(excluded, target, &Exclusion::target);
    return found == excluded.end() ? nullptr : &*found;
}

std::optional<Deviation> Run::used(std::size_t target) const {
    if (target >= deviations.size() || exclusion(target) != nullptr) return std::nullopt;
    return deviations[target];
}

const Axis* find_axis(const Document& document, std::string_view name) {
    if (!document.machine) return nullptr;
    const auto found = std::ranges::find(document.machine->axes, name, &Axis::name);
    return found == document.machine->axes.end() ? nullptr : &*found;
}

const Instrument* find_instrument(const Document& document, std::string_view id) {
    const auto found = std::ranges::find(document.instruments, id, &Instrument::id);
    return found == document.instruments.end() ? nullptr : &*found;
}

std::string name_of_instrument(const Instrument& instrument) {
    if (instrument.kind.empty()) return "instrument " + (instrument.serial.empty() ? instrument.id : instrument.serial);
    return instrument.kind + (instrument.serial.empty() ? "" : " " + instrument.serial);
}

const Series* find_series(const Document& document, std::string_view id) {
    const auto found = std::ranges::find(document.series, id, &Series::id);
    return found == document.series.end() ? nullptr : &*found;
}

const MeasurementLine* measurement_line(const Document& document, const Series& series) {
    if (!document.setup) return nullptr;
    const auto& lines = document.setup->lines;
    if (series.measurement_line) return *series.measurement_line < lines.size() ? &lines[*series.measurement_line] : nullptr;
    if (open_measurement_lines(document, series) != 1) return nullptr;
    return &*std::ranges::find(lines, series.error.axis, &MeasurementLine::axis);
}

std::size_t open_measurement_lines(const Document& document, const Series& series) {
    if (!document.setup || series.measurement_line) return 0;
    return static_cast<std::size_t>(std::ranges::count(document.setup->lines, series.error.axis, &MeasurementLine::axis));
}

}  // namespace wayfolio::document
