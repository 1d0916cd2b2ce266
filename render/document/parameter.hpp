#pragma once
#include "document/series.hpp"

#include <span>
#include <string_view>

namespace wayfolio::document {

/// Parameters that a series of this kind can have a limit or an uncertainty for, in the words of the evaluation output;
/// "local" is local straightness.
std::span<const std::string_view> parameter_names(const ErrorSymbol& error);

/// Those of them that an analyst can state a value of: all but "local", which would need its length.
std::span<const std::string_view> stated_names(const ErrorSymbol& error);

/// Whether a parameter is a length or an angle.
/// A slope is an angle (um/m); straightness by angle steps is a length although its readings are angles.
units::Dimension parameter_dimension(const ErrorSymbol& error, std::string_view parameter);

/// The unit in which a document states a parameter of the series: the series' own where the dimension agrees, else um or um/m.
DeviationUnit stated_unit(const Series& series, std::string_view parameter);

/// Whether a parameter changes its sign with the sign convention of the readings.
bool is_signed(std::string_view parameter);

}  // namespace wayfolio::document
