#include "document/parameter.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array<std::string_view, 24> positioning{
    "A", "A_positive", "A_negative", "E", "E_positive", "E_negative", "R", "R_positive", "R_negative", "B", "B_mean", "M",
    "vdi_P", "vdi_Pa", "vdi_Ps", "vdi_Ps_mean", "vdi_U", "vdi_U_mean",
    "s3_A", "s3_A_positive", "s3_A_negative", "s3_R", "s3_R_positive", "s3_R_negative"};
constexpr std::array<std::string_view, 8> straightness{
    "straightness", "straightness_mean", "straightness_positive", "straightness_negative", "B", "B_mean", "slope", "local"};
// A rotary axis, whose position is an angle, has neither slope nor local straightness over a length.
constexpr std::size_t of_rotary_axis = straightness.size() - 2;
constexpr std::array<std::string_view, 5> angle{"angle", "angle_positive", "angle_negative", "B", "B_mean"};

}  // namespace

std::span<const std::string_view> parameter_names(const ErrorSymbol& error) {
    switch (error.kind()) {
        case ErrorKind::Positioning: return positioning;
        case ErrorKind::Angle: return angle;
        case ErrorKind::Straightness: break;
    }
    return error.axis_is_rotary() ? std::span(straightness).first(of_rotary_axis) : std::span(straightness);
}

std::span<const std::string_view> stated_names(const ErrorSymbol& error) {
    const auto names = parameter_names(error);
    return names.back() == "local" ? names.first(names.size() - 1) : names;
}

units::Dimension parameter_dimension(const ErrorSymbol& error, std::string_view parameter) {
    using enum units::Dimension;
    if (parameter == "slope" || error.kind() == ErrorKind::Angle) return Angle;
    return error.kind() == ErrorKind::Positioning && error.axis_is_rotary() ? Angle : Length;
}

DeviationUnit stated_unit(const Series& series, std::string_view parameter) {
    if (parameter == "slope") return units::micrometre_per_metre;
    if (parameter_dimension(series.error, parameter) == series.unit.dimension) return series.unit;
    return units::micrometre;
}

bool is_signed(std::string_view parameter) { return parameter == "B_mean" || parameter == "slope"; }

}  // namespace wayfolio::document
