#include "produce/build_digest.hpp"

#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

namespace fs = std::filesystem;
using namespace wayfolio;

namespace {

/// What the script writes for the sources in `root`.
std::string written_for(const fs::path& root, const support::TemporaryFolder& into) {
    const std::string script = std::string(WAYFOLIO_SOURCE_FOLDER) + "/render/build_digest.cmake", output = into / "digest.cpp";
    REQUIRE(support::run("cmake -DROOT=" + root.string() + " -DOUTPUT=" + output + " -P " + script).code == 0);
    return support::file_bytes(output);
}

}  // namespace

TEST_CASE("the digest of the build follows from the sources alone: not from their folder or time, but from each byte and name") {
    CHECK(produce::build_digest().size() == 64);
    const support::TemporaryFolder one, other, into;
    for (const support::TemporaryFolder* root : {&one, &other}) {
        fs::create_directories(root->path() / "render/units");
        fs::create_directories(root->path() / "layouts");
        root->file("render/units/a.cpp", "int a;\n");
        root->file("layouts/report.json", "{}\n");
    }
    const std::string first = written_for(one.path(), into);
    CHECK(written_for(other.path(), into) == first);
    other.file("layouts/report.json", "{ }\n");
    const std::string changed = written_for(other.path(), into);
    CHECK(changed != first);
    other.file("layouts/report.json", "{}\n");
    fs::rename(other.path() / "render/units/a.cpp", other.path() / "render/units/b.cpp");
    CHECK(written_for(other.path(), into) != first);
}

TEST_CASE("a digest that is the same is not written again, so that nothing is compiled") {
    const support::TemporaryFolder root, into;
    fs::create_directories(root.path() / "render");
    root.file("render/a.cpp", "int a;\n");
    (void)written_for(root.path(), into);
    const auto before = fs::last_write_time(into / "digest.cpp");
    (void)written_for(root.path(), into);
    CHECK(fs::last_write_time(into / "digest.cpp") == before);
}
