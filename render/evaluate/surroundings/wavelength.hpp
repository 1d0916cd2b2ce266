#pragma once
#include "document/document.hpp"

#include <vector>

namespace wayfolio::evaluate {

/// The vacuum wavelength that the index of the air is computed for.
struct Wavelength {
    double nm;
    bool stated;  ///< false: that of a helium-neon laser is assumed

    [[nodiscard]] double um() const { return nm / 1000; }
};

/// Of the instrument that measured the series.
Wavelength wavelength_of(const document::Document& document, const document::Series& series);

/// For the index of the whole record: of the first length along a linear axis; without one of the first instrument that states one.
Wavelength wavelength_of_record(const document::Document& document);

/// Instruments that measured lengths along linear axes and whose wavelength is assumed; none where the record gives no index.
std::vector<const document::Instrument*> wavelength_assumed(const document::Document& document);

}  // namespace wayfolio::evaluate
