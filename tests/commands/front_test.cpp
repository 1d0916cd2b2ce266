#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

TEST_CASE("the help and version that the program in front gives are those of the rest of the program") {
    CHECK(called_with("--help").out == called_with("--help -h").out);
    CHECK(called_with("-h").out == called_with("--help").out);
    CHECK(called_with("--version").out == called_with("--version --version").out);
}

namespace {

/// The program in front as it is installed, without what it is installed with.
struct Alone {
    Alone() {
        fs::create_directories(folder / "bin");
        fs::create_directories(folder / "share/wayfolio");
        fs::copy_file(testing::program, program);
    }
    const TemporaryFolder folder;
    const std::string program = folder / "bin/wayfolio";
};

}  // namespace

TEST_CASE("where the rest of the program is missing, its version, help and evaluations still come, and everything else says what lacks") {
    const Alone alone;
    CHECK(run(alone.program + " --version").out == called_with("--version").out);
    CHECK(run(alone.program + " --help").out == called_with("--help").out);
    CHECK(run(alone.program + " evaluate " + short_axis).out == called_with("evaluate " + short_axis).out);

    const Ran ran = run(alone.program + " report " + short_axis + " -o " + alone.folder / "x.pdf");
    CHECK(ran.code == 70);
    CHECK_THAT(ran.err, Contains("a part of this program cannot be loaded; install it again: ") && Contains("/wayfolio-commands.so"));
    CHECK_FALSE(fs::exists(alone.folder / "x.pdf"));
}

TEST_CASE("a part of the program that is broken is told as that, not as missing elsewhere") {
    const Alone alone;
    const std::string part = alone.folder.file("share/wayfolio/wayfolio-commands.so", "nothing that can be loaded");
    const Ran ran = run(alone.program + " layouts");
    CHECK(ran.code == 70);
    CHECK_THAT(ran.err, Contains(part + ": file too short") || Contains(part + ": invalid ELF header"));
}

TEST_CASE("a program that was installed without its layouts says which folder it misses") {
    const Alone alone;
    fs::copy_file(std::string(WAYFOLIO_BUILD_FOLDER) + "/data/wayfolio-commands.so", alone.folder / "share/wayfolio/wayfolio-commands.so");
    for (const std::string& call : {std::string("layouts"), "report " + smallest + " -o " + alone.folder / "x.pdf"}) {
        const Ran ran = run(alone.program + " " + call);
        CHECK(ran.code == 66);
        CHECK_THAT(ran.err, Contains("share/wayfolio/layouts") && Contains("install it again"));
    }
}

TEST_CASE("a document that was redirected onto itself is refused before it is evaluated") {
    const TemporaryFolder folder;
    fs::copy_file(smallest, folder / "a.json");
    const Ran ran = run("cd " + folder.path().string() + " && " + program + " evaluate a.json 1<> a.json");
    CHECK(ran.code == 2);
    CHECK_THAT(ran.err, Contains("the output on standard output is also an input, a.json"));
    CHECK(support::file_bytes(folder / "a.json") == support::file_bytes(smallest));
}
