#include "evaluate/surroundings/wavelength.hpp"

#include "evaluate/surroundings/environment_record.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

Wavelength wavelength_by(const document::Instrument* instrument) {
    if (instrument == nullptr || !instrument->vacuum_wavelength_nm) return {helium_neon_nm, false};
    return {*instrument->vacuum_wavelength_nm, true};
}

bool is_length_along_axis(const document::Series& series) {
    return series.error.kind() == document::ErrorKind::Positioning && !series.error.axis_is_rotary();
}

}  // namespace

Wavelength wavelength_of(const document::Document& document, const document::Series& series) {
    return wavelength_by(document::find_instrument(document, series.instrument));
}

Wavelength wavelength_of_record(const document::Document& document) {
    for (const auto& series : document.series)
        if (is_length_along_axis(series)) return wavelength_of(document, series);
    for (const auto& instrument : document.instruments)
        if (instrument.vacuum_wavelength_nm) return wavelength_by(&instrument);
    return wavelength_by(nullptr);
}

std::vector<const document::Instrument*> wavelength_assumed(const document::Document& document) {
    std::vector<const document::Instrument*> assumed;
    if (!mean_air(all_samples(document))) return assumed;
    for (const auto& instrument : document.instruments) {
        const bool used = std::any_of(document.series.begin(), document.series.end(), [&](const auto& series) {
            return series.instrument == instrument.id && is_length_along_axis(series);
        });
        if (used && !instrument.vacuum_wavelength_nm) assumed.push_back(&instrument);
    }
    return assumed;
}

}  // namespace wayfolio::evaluate
