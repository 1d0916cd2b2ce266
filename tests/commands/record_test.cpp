#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The program where no file may grow beyond this many blocks of 512 bytes: what a full disk does, without the right to make one.
Ran called_on_a_full_disk(const std::string& arguments, int blocks) {
    return run("(ulimit -f " + std::to_string(blocks) + "; exec " + program + " " + arguments + ")");
}

std::vector<std::string> files_in(const std::string& folder) {
    std::vector<std::string> files;
    std::error_code none;
    for (const auto& entry : fs::recursive_directory_iterator(folder, none)) files.push_back(entry.path().string());
    std::ranges::sort(files);
    return files;
}

}  // namespace

TEST_CASE("a disk that is full leaves no record, and names the file that it could not take") {
    const TemporaryFolder folder;
    const std::string record = folder / "record";
    for (const int blocks : {0, 8, 60, 200}) {
        const Ran ran = called_on_a_full_disk("record " + smallest + " -o " + record, blocks);
        CHECK(ran.code == 74);
        if (blocks > 0) CHECK_THAT(ran.err, Contains(record) && Contains("File too large"));  // with none, the message has no room either
        CHECK(files_in(record).empty());
    }
    REQUIRE(called_with("record " + smallest + " -o " + record).code == 0);
    CHECK(called_with("verify " + record).code == 0);
}

TEST_CASE("a disk that has no room for every figure leaves the figures that were there") {
    const TemporaryFolder folder;
    const std::string figures = folder / "figures", rotary = source_folder + "/sample-results/rotary-axis.json";
    REQUIRE(called_with("figure " + smallest + " -o " + figures).code == 0);
    const auto before = files_in(figures);
    for (const int blocks : {0, 80}) {  // room for no figure, and for all but the one round the circle
        const Ran ran = called_on_a_full_disk("figure " + rotary + " -o " + figures, blocks);
        CHECK(ran.code == 74);
        if (blocks > 0) CHECK_THAT(ran.err, Contains("polar.svg") && Contains("File too large"));
        CHECK(files_in(figures) == before);
    }
    REQUIRE(called_with("figure " + rotary + " -o " + figures).code == 0);
    CHECK(files_in(figures).size() > before.size());
}

TEST_CASE("a disk that is full leaves the record that was there, and no revision", "[slow]") {
    const TemporaryFolder folder;
    const std::string record = folder / "record";
    const auto revised = [&](const std::string& name, const std::string& job) {
        std::string document = document_with_limit("100");
        document.insert(1, "\"job\": " + job + ", ");
        return folder.file(name, document);
    };
    REQUIRE(called_with("record " + revised("first.json", R"({"number": "K-1", "revision": 0})") + " -o " + record).code == 0);
    const auto before = files_in(record);
    const std::string second = revised(
        "second.json", R"({"number": "K-1", "revision": 1, "replaces": {"number": "K-1", "revision": 0, "reason": "a limit was wrong"}})");
    for (const int blocks : {0, 8, 60, 200}) {
        CHECK(called_on_a_full_disk("record " + second + " -o " + record, blocks).code == 74);
        CHECK(files_in(record) == before);
        CHECK(called_with("verify " + record).code == 0);
    }
    CHECK(called_with("record " + second + " -o " + record).code == 0);
    CHECK(fs::is_directory(fs::path(record) / "revision-1"));
}

TEST_CASE("verify asks for a fingerprint that can be one, and for something that could be verified") {
    const TemporaryFolder folder;
    const std::string pdf = folder / "smallest.pdf";
    REQUIRE(called_with("report " + smallest + " -o " + pdf).code == 0);
    for (const char* against : {"''", "zz", "sha256:", "0123456789abcde", "0123456789abcdeg", "sha256:0123456789abcde"}) {
        const Ran ran = called_with("verify " + pdf + " --against " + against);
        CHECK(ran.code == 2);
        CHECK(ran.out.empty());
        CHECK_THAT(ran.err, Contains("is not a fingerprint: give 16 to 64 hexadecimal digits"));
    }
    CHECK(called_with("verify " + pdf + " --against sha256:0123456789ABCDEF").code == 1);
    for (const std::string& other : {std::string("/etc"), std::string("/dev/null"), smallest}) {
        const Ran ran = called_with("verify " + other);
        CHECK(ran.code == 65);
        CHECK(ran.out.empty());
        CHECK_THAT(ran.err, Contains(other) && Contains("expected a PDF that this program made, or the folder of a record"));
    }
}

TEST_CASE("a report that the disk cannot take leaves the old one") {
    const TemporaryFolder folder;
    const std::string report = folder.file("report.pdf", "the old one");
    CHECK(called_on_a_full_disk("report " + smallest + " -o " + report, 20).code == 74);
    CHECK(wayfolio::support::file_bytes(report) == "the old one");
    CHECK(files_in(folder.path().string()).size() == 1);
}

TEST_CASE("a name that no file system takes, and a folder that may not be seen, are told by their own exit codes") {
    const TemporaryFolder folder;
    const std::string long_name = folder / std::string(300, 'n');
    for (const std::string& command : {"record " + smallest, "report " + smallest, "figure " + smallest}) {
        CAPTURE(command);
        const Ran ran = called_with(command + " -o " + long_name);
        CHECK(ran.code == 73);
        CHECK_THAT(ran.err, Contains("File name too long"));
    }
    CHECK(called_with("catalogue " + folder.path().string() + " --index " + long_name).code == 73);
    CHECK(called_with("catalogue " + folder.path().string() + " --as-indexed --index " + long_name).code == 66);
    REQUIRE(called_with("record " + smallest + " -o " + folder / "un/rec").code == 0);
    fs::permissions(folder.path(), fs::perms::all);
    fs::permissions(folder / "un", fs::perms::owner_all);
    // Only root may become somebody else; and where this source lies in root's own home, nobody else can read the sample.
    if (run("setpriv --reuid=65534 --clear-groups test -r " + smallest).code != 0) return;
    const auto as_nobody = [&](const std::string& arguments) {
        return run("setpriv --reuid=65534 --clear-groups " + program + " " + arguments).code;
    };
    CHECK(as_nobody("verify " + folder / "un") == 66);
    CHECK(as_nobody("verify " + folder / "un/rec") == 66);
    CHECK(as_nobody("redraw " + folder / "un" + " -o " + folder / "r.pdf") == 66);
    CHECK(as_nobody("compare " + folder / "un" + " " + smallest) == 66);
    CHECK(as_nobody("record " + smallest + " -o " + folder / "un") == 73);
    CHECK(as_nobody("record " + smallest + " -o " + folder / "un/more") == 73);
    CHECK(as_nobody("figure " + smallest + " -o " + folder / "un") == 73);
}

TEST_CASE("all figures or none go to a folder in which one of their names is taken by a folder") {
    const TemporaryFolder folder;
    const std::string figures = folder / "figures";
    fs::create_directories(figures + "/x-reversal.svg");
    const Ran ran = called_with("figure " + smallest + " -o " + figures);
    CHECK(ran.code == 73);
    CHECK_THAT(ran.err, Contains("x-reversal.svg: is a folder, where a figure is to be written"));
    CHECK(files_in(figures) == std::vector<std::string>{figures + "/x-reversal.svg"});
}
