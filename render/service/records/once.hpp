#pragma once
#include "service/answers/routes.hpp"

#include <filesystem>

namespace wayfolio::service {

/// Where a request has an Idempotency-Key, keeps with the records what was asked under it, for good. Filing itself may be asked again: this
/// only finds a key that is used for something else. @throws Refused then, and for a key that is none
void require_first_use(const Call& call, const std::filesystem::path& records);

}  // namespace wayfolio::service
