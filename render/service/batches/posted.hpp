#pragma once
#include "service/answers/routes.hpp"
#include "service/batches/desk.hpp"

namespace wayfolio::service {

/// The batch that came with a call: its part "manifest", and its files as parts called "file". No name in it means a place on this machine.
/// @throws input::InputRejected with all faults of the manifest, names of files that did not come among them; Refused
PostedBatch posted_in(const Call& call);

}  // namespace wayfolio::service
