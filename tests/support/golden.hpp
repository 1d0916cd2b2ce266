#pragma once
#include "support/run.hpp"

#include <catch2/catch.hpp>

/// Reference texts in tests/golden.
namespace wayfolio::testing {

/// Compares with tests/golden/NAME; UPDATE_GOLDEN=1 in the environment writes the reference instead (then read the difference).
inline void check_golden(const std::string& name, const std::string& text) {
    const std::filesystem::path path = std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "tests/golden" / name;
    if (std::getenv("UPDATE_GOLDEN")) {
        std::filesystem::create_directories(path.parent_path());
        std::ofstream(path, std::ios::binary) << text;
    }
    INFO("reference " << path.string());
    REQUIRE(std::filesystem::exists(path));
    CHECK(text == support::file_bytes(path));
}

}  // namespace wayfolio::testing
