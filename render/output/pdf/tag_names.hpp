#pragma once
#include "frame/frame.hpp"

namespace wayfolio::output {

/// What an artifact is recorded as.
inline constexpr const char* artifact_tag = "Private";

/// The tag under which Cairo marks the content of a structure type or artifact; page_contents gives it its own name. Cairo 1.16 knows no
/// artifacts, and makes an annotation of each Link, before it knows the pages that follow.
const char* marking_of(const std::string& type);

/// The ISO 32000-1 (14.8.4) structure type of a role. Not for Plain, Artifact and LinkText, which have no fixed one.
const char* tag_of(frame::Role role);
/// Roles whose element may hold other elements only: text directly in them is a fault.
bool holds_only_elements(frame::Role role);

}  // namespace wayfolio::output
