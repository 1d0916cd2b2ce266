#pragma once
#include "evaluate/series/extremes.hpp"

namespace wayfolio::evaluate {

/// The parameters of an older evaluation, each under its own name, never mixed with those of 1997 and later [formulas from
/// memory]: ISO 230-2:1988 (3 s for 2 s): s3_A s3_A_positive s3_A_negative s3_R s3_R_positive s3_R_negative; VDI/DGQ 3441:1977:
/// vdi_P vdi_Pa vdi_Ps vdi_Ps_mean vdi_U vdi_U_mean.
std::vector<Parameter> older_parameters(document::OlderStandard edition, Targets targets, const PositionUnit& unit);

}  // namespace wayfolio::evaluate
