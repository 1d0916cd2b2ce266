#pragma once
#include "archive/record/making.hpp"

#include <filesystem>

namespace wayfolio::archive {

/// What was kept in a PDF, in a record (its newest revision) or in one revision of it.
/// @throws input::InputMissing, input::InputRejected
Making kept_from(const std::filesystem::path& path);

}  // namespace wayfolio::archive
