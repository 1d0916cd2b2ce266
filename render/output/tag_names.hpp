#pragma once
#include "frame/frame.hpp"

namespace wayfolio::output {

/// Cairo 1.16 knows no artifacts: they are written under this legal tag and turned into artifacts by the finishing pass.
inline constexpr const char* artifact_tag = "Private";

/// The ISO 32000-1 (14.8.4) structure type of a role. Not for Plain, Artifact and LinkText, which have no fixed one.
const char* tag_of(frame::Role role);
/// Roles whose element may hold other elements only: text directly in them is a fault.
bool holds_only_elements(frame::Role role);

}  // namespace wayfolio::output
