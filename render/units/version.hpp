#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio {

/// The program's version, as CMakeLists.txt names it: printed by --version, in every evaluation and on every page.
std::string_view version();

/// A library at work, with the version that is loaded (not the one that was compiled against).
struct LibraryVersion {
    std::string name, version;
    bool operator==(const LibraryVersion&) const = default;
};
using LibraryVersions = std::vector<LibraryVersion>;

}  // namespace wayfolio
