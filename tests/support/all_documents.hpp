#pragma once
#include <algorithm>
#include <filesystem>
#include <initializer_list>
#include <string>
#include <vector>

/// Which documents the tests draw.
namespace wayfolio::testing {

/// The result documents in these folders of the project, by name. One of them holds a script that no font has: it is left out, for its
/// refusal is tested by itself.
inline std::vector<std::filesystem::path> documents_in(std::initializer_list<const char*> folders) {
    std::vector<std::filesystem::path> found;
    for (const char* folder : folders)
        for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / folder))
            if (entry.path().extension() == ".json" && entry.path().stem() != "script-without-font") found.push_back(entry.path());
    std::ranges::sort(found);
    return found;
}

inline std::vector<std::filesystem::path> all_documents() { return documents_in({"sample-results", "tests/golden/awkward"}); }

}  // namespace wayfolio::testing
