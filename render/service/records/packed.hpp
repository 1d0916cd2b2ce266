#pragma once
#include "archive/record/making.hpp"

#include <string>

namespace wayfolio::service {

enum class PackedAs { Zip, Tar };

/// Files in one, by their names: a ZIP archive, or a tar as POSIX.1-2001 has it (pax). The same files give the same bytes: none has a time.
/// @throws std::runtime_error where libarchive is not installed, or refuses a name
std::string packed(const archive::Files& files, PackedAs as);

}  // namespace wayfolio::service
