#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A folder with a document that has a trace and a logo, and a layout of one's own over another.
struct Workplace {
    TemporaryFolder folder;
    Workplace() {
        fs::copy_file(source_folder + "/tests/golden/awkward/trace-beside.json", folder / "tr.json");
        fs::copy_file(source_folder + "/tests/golden/awkward/logo-beside.json", folder / "logo.json");
        for (const auto& entry : fs::directory_iterator(source_folder + "/tests/golden/awkward"))
            if (entry.path().extension() != ".json") fs::copy(entry.path(), folder.path() / entry.path().filename(),
                fs::copy_options::recursive);
        folder.file("base.json", R"({"format": "wayfolio-layout", "version": 1, "name": "base", "title": "Base", "extends": "summary"})");
        folder.file("own.json", R"({"format": "wayfolio-layout", "version": 1, "name": "own", "title": "Own", "extends": "base.json"})");
        fs::create_hard_link(folder / "tr.json", folder / "hard.json");
        fs::create_symlink("tr.json", folder / "soft.json");
    }
    [[nodiscard]] std::string trace() const {
        for (const auto& entry : fs::directory_iterator(folder.path()))
            if (entry.path().extension() == ".csv") return entry.path().filename().string();
        throw std::logic_error("no trace");
    }
};

}  // namespace

TEST_CASE("no command writes onto a file that it read, by whatever name") {
    const Workplace place;
    const std::string trace = place.trace();
    for (const auto& [command, kept] : std::vector<std::pair<std::string, std::string>>{
             {"report tr.json -o " + trace, trace},
             {"report tr.json -o hard.json", "tr.json"},
             {"report tr.json -o soft.json", "tr.json"},
             {"report logo.json -o logo.svg", "logo.svg"},
             {"report tr.json --layout own.json -o base.json", "base.json"},
             {"report tr.json --layout own.json -o own.json", "own.json"},
             {"report - -o tr.json <tr.json", "tr.json"},
             {"report /dev/stdin -o tr.json <tr.json", "tr.json"},
             {"report - -o - <tr.json 1<>tr.json", "tr.json"},
             {"evaluate tr.json >>tr.json", "tr.json"},
             {"check tr.json >>" + trace, trace},
             {"certificate tr.json -o " + trace, trace},
             {"compare logo.json tr.json -o logo.svg", "logo.svg"},
             {"compare logo.json tr.json >>" + trace, trace}}) {
        CAPTURE(command);
        const std::string before = file_bytes(place.folder / kept);
        const Ran ran = run("cd " + place.folder.path().string() + " && " + program + " " + command);
        CHECK(ran.code == 2);
        CHECK_THAT(ran.err, Contains("is also an input"));
        CHECK(file_bytes(place.folder / kept) == before);
    }
}

TEST_CASE("no command writes into a record, and the record stays as it was made") {
    const TemporaryFolder folder;
    const std::string record = folder / "rec", there = "cd " + folder.path().string() + " && " + program + " ";
    REQUIRE(called_with("record " + smallest + " -o " + record).code == 0);
    REQUIRE(called_with("report " + smallest + " -o " + folder / "r.pdf").code == 0);
    fs::create_symlink("rec/revision-0/data/report.pdf", folder / "link.pdf");
    fs::create_directory_symlink("rec/revision-0/data", folder / "shortcut");
    for (const std::string& command : {"report " + smallest + " -o rec/revision-0/data/report.pdf", "report " + smallest + " -o link.pdf",
                                       "report " + smallest + " -o shortcut/more.pdf", "report " + smallest + " -o rec/more.pdf",
                                       "figure " + smallest + " -o rec/revision-0/data/figures", "figure " + smallest + " -o rec/figures",
                                       "table " + smallest + " --series x -o rec/revision-0/x.csv",
                                           std::string("redraw r.pdf -o rec/r.pdf"),
                                       std::string("redraw rec -o rec/revision-0/data/report.pdf"), "record " + smallest + " -o rec/inner",
                                       "record " + smallest + " -o rec/revision-0/data/inner",
                                       std::string("catalogue rec --index rec/revision-0/i.sqlite"),
                                           std::string("catalogue rec/revision-0"),
                                       "certificate " + smallest + " -o rec/revision-0/data/c.xml",
                                       std::string("history rec -o rec/revision-0/data/h.svg")}) {
        CAPTURE(command);
        const Ran ran = run(there + command);
        CHECK(ran.code == 2);
        CHECK_THAT(ran.err, Contains("in which nothing is ever changed"));
        CHECK(called_with("verify " + record).code == 0);
    }
    CHECK(run(there + "catalogue rec").code == 0);
    CHECK(called_with("verify " + record).code == 0);
}

TEST_CASE("pipes and devices where files must be are told, and nobody waits for them") {
    const TemporaryFolder folder;
    const std::string record = folder / "rec", limited = "timeout 20 " + program + " ";
    REQUIRE(called_with("record " + smallest + " -o " + record).code == 0);
    REQUIRE(run("mkfifo " + folder / "pipe").code == 0);
    for (const std::string ending : {"", "-journal"}) {
        REQUIRE(run("mkfifo -m 600 " + folder / "i.sqlite" + ending).code == 0);
        for (const std::string more : {"", " --as-indexed"}) {
            const Ran ran = run(limited + "catalogue " + record + " --index " + folder / "i.sqlite" + more);
            CHECK(ran.code == 66);
            CHECK_THAT(ran.err, Contains("i.sqlite" + ending + ": is a pipe or a device"));
        }
        fs::remove(folder / "i.sqlite" + ending);
        if (ending.empty()) REQUIRE(called_with("catalogue " + record + " --index " + folder / "i.sqlite").code == 0);
    }
    for (const std::string file : {"data/evaluation.json", "data/inputs/wayfolio-result.json", "manifest-sha256.txt", "bagit.txt",
        "data/report.pdf"}) {
        CAPTURE(file);
        const std::string path = record + "/revision-0/" + file, bytes = file_bytes(path);
        fs::remove(path);
        REQUIRE(run("mkfifo " + path).code == 0);
        const Ran verified = run(limited + "verify " + record);
        CHECK(verified.code == 1);
        CHECK_THAT(verified.out, Contains(file));
        CHECK(run(limited + "catalogue " + record + " --index " + folder / "j.sqlite").code != 124);
        CHECK(run(limited + "redraw " + record + " -o " + folder / "r.pdf").code != 124);
        fs::remove(path);
        std::ofstream(path, std::ios::binary) << bytes;
    }
    REQUIRE(called_with("verify " + record).code == 0);
    // A trace or a logo beside the document is a file, too.
    folder.file("job.json", file_bytes(source_folder + "/tests/golden/awkward/logo-beside.json"));
    REQUIRE(run("mkfifo " + folder / "logo.svg").code == 0);
    CHECK(run(limited + "check " + folder / "job.json").code == 65);
}

TEST_CASE("pipes that a user names as the input are read as before") {
    const TemporaryFolder folder;
    CHECK(run("cat " + smallest + " | " + program + " check /dev/stdin").code == 0);
    CHECK(run("bash -c '" + program + " evaluate <(cat " + smallest + ")'").code == 0);
    CHECK(run("mkfifo " + folder / "p" + " && { cat " + smallest + " > " + folder / "p" + " & timeout 20 " + program + " check " +
        folder / "p" + "; }").code == 0);
    CHECK(run("bash -c '" + program + " conformance <(" + program + " report " + smallest + " -o -)'").code == 0);
}
