#pragma once
#include <array>
#include <string_view>

/// The keys of a result document in the order of its schema (a test holds them to it).
namespace wayfolio::gather {

inline constexpr std::array<std::string_view, 16> document_keys{
    "$schema", "format",     "version",     "job",   "machine",    "instruments",  "environment", "setup",
    "series",  "evaluation", "uncertainty", "drift", "squareness", "compensation", "facts",       "internal"};

inline constexpr std::array<std::string_view, 18> job_keys{
    "number", "title",    "order",           "status",   "customer", "laboratory", "place",   "place_kind",  "measured",
    "issued", "revision", "agreed_interval", "replaces", "people",   "method",     "remarks", "data_notice", "internal"};

inline constexpr std::array<std::string_view, 23> series_keys{
    "id",      "error",   "kind",    "base_mm", "state", "instrument", "unit",   "position_unit",        "measurement_line", "origin",
    "plan",    "sign",    "targets", "runs",    "trace", "tolerances", "stated", "expansion_correction", "air_correction",   "dead_path_mm",
    "warm_up", "remarks", "internal"};

inline constexpr std::array<std::string_view, 4> environment_keys{"reference_temperature_C", "origin", "samples", "internal"};

}  // namespace wayfolio::gather
