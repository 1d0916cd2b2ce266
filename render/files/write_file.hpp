#pragma once
#include "files/left_over.hpp"
#include "files/output_failed.hpp"

#include <filesystem>
#include <string_view>

namespace wayfolio::files {

/// Writes bytes whole or not at all: beside the target, flushed, then moved into place, where a link stays a link and a file keeps its
/// permissions. "-" is standard output; devices and pipes are written to. Whoever makes more than bytes takes Unfinished (unfinished.hpp).
/// @throws OutputFailed
void write_file(const std::filesystem::path& path, std::string_view bytes, LeftOver left_over = LeftOver::Sought);

}  // namespace wayfolio::files
