#pragma once
#include "evaluate/numbers/air_index.hpp"
#include "document/document.hpp"

/// Reading the environment record: which samples belong to a span of time, and what they average to.
namespace wayfolio::evaluate {

using EnvironmentSamples = std::vector<const document::EnvironmentSample*>;

struct Span {
    double from, to;  ///< as seconds_of() gives them
};

/// From the first start to the last end of a series' runs; nothing where none has times.
std::optional<Span> span_of(const document::Series& series);
std::optional<Span> span_of(const document::Run& run);

/// All samples of the record.
EnvironmentSamples all_samples(const document::Document& document);
/// The samples within a span and the nearest one on either side of it; all of them without a span or where no sample has a time.
EnvironmentSamples samples_during(const document::Document& document, const std::optional<Span>& span);

/// The air of one sample; nothing where temperature, pressure or humidity is missing.
std::optional<Air> air_of(const document::EnvironmentSample& sample);
/// The mean air of those samples that are complete.
std::optional<Air> mean_air(const EnvironmentSamples& samples);

/// Lowest, mean and highest of the machine temperatures at the named sensors (all sensors where none is named).
struct Temperatures {
    double lowest, mean, highest;
};
std::optional<Temperatures> machine_temperatures(const EnvironmentSamples& samples, const std::vector<std::string>& sensors);

double reference_temperature_C(const document::Document& document);

}  // namespace wayfolio::evaluate
