#include "input/iso_date.hpp"
#include "input/json/nearest.hpp"
#include "input/problem.hpp"
#include "input/read_file.hpp"
#include "input/digest.hpp"
#include "input/encoding.hpp"
#include "input/json/json.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <filesystem>
#include <fstream>
#include <vector>

using namespace wayfolio::input;
namespace fs = std::filesystem;

namespace {

constexpr std::array<std::string_view, 4> length_units{"um", "mm", "in", "uin"};

/// A folder of its own, gone at the end.
struct Folder {
    // Each test is a process of its own, and they run side by side: a fixed name would be shared.
    wayfolio::support::TemporaryFolder own{};
    fs::path path = own.path();
    Folder() { fs::create_directories(path / "inner"); }
    void write(const std::string& name, const std::string& text) const { std::ofstream(path / name) << text; }
};

}  // namespace

TEST_CASE("characters of private use are found at the ends of their ranges, and none beside them") {
    CHECK(first_private_use("a\uE000b") == 0xE000);
    CHECK(first_private_use("\uF8FF") == 0xF8FF);
    CHECK(first_private_use("\U000F0000") == 0xF0000);
    CHECK(first_private_use("\U0010FFFD") == 0x10FFFD);
    CHECK_FALSE(first_private_use("\uD7FF\uF900\uFFFD\U0001F600\U000EFFFF"));
}

TEST_CASE("the size in UTF-16 counts the byte-order mark and pairs of surrogates") {
    CHECK(utf16_size("") == 2);
    CHECK(utf16_size("a\u00E9\u4E00") == 8);
    CHECK(utf16_size("\U0001F600") == 6);
}

TEST_CASE("the nearest word is the one with the fewest changes, or the one that begins it") {
    CHECK(nearest("inches", length_units) == "in");
    CHECK(nearest("\xC2\xB5m", length_units) == "um");
    CHECK(nearest("UM", length_units) == "um");
    CHECK_FALSE(nearest("furlong", length_units));
    CHECK_FALSE(nearest("", length_units));
    constexpr std::array<std::string_view, 3> verbs{"report", "figure", "evaluate"};
    CHECK(nearest("reprot", verbs) == "report");
    CHECK(nearest("evalute", verbs) == "evaluate");
    CHECK(nearest("fig", verbs) == "figure");
    CHECK(nearest_hint("figures", verbs) == "did you mean \"figure\"?");
}

TEST_CASE("SHA-256 gives the digests of FIPS 180-4's examples") {
    CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("dates of ISO 8601 are read, and those that do not exist are not") {
    for (const char* good :
         {"2026-05-11", "2024-02-29", "2026-05-11T08:10", "2026-05-11T08:10:59.25", "2026-05-11T08:10Z", "2026-05-11T23:59:60-11:30"})
        CHECK(iso_date(good));
    for (const char* bad : {"", "2026", "2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26-05-11", "2026-5-11",
                            "2026-05-11 08:10", "2026-05-11T", "2026-05-11T24:00", "2026-05-11T08:60", "2026-05-11T08:10+15:00",
                            "2026-05-11T08:10:1", "2026-05-11x", "11.05.2026"})
        CHECK_FALSE(iso_date(bad));
}

TEST_CASE("of two dates one is before the other only when that is certain") {
    const auto before = [](std::string_view a, std::string_view b) { return is_before(*iso_date(a), *iso_date(b)); };
    CHECK(before("2026-05-10", "2026-05-11"));
    CHECK_FALSE(before("2026-05-11", "2026-05-11T08:10"));
    CHECK(before("2026-05-11T08:10+03:00", "2026-05-11T08:10+02:00"));
    CHECK_FALSE(before("2026-05-11T08:10+01:00", "2026-05-11T08:10+02:00"));
    CHECK_FALSE(before("2026-05-11T08:00", "2026-05-11T08:10Z"));
    CHECK(before("2026-05-09T08:00", "2026-05-11T08:10Z"));
}

TEST_CASE("a problem is one line: file, place, pointer, found, expected, hint") {
    const Problem problem{"job.json", {12, 7, "/series/0/unit"}, "\"inches\"", "a unit of length: um, mm, in, uin", "did you mean \"in\"?"};
    CHECK(to_text(problem) ==
          "job.json:12:7: /series/0/unit: found \"inches\"; expected a unit of length: um, mm, in, uin (did you mean \"in\"?)");
    CHECK(to_text({"job.json", {}, "nothing", "a document", ""}) == "job.json: found nothing; expected a document");
}

TEST_CASE("a rejection carries at most fifty problems") {
    CHECK(InputRejected(std::vector<Problem>(60)).problems().size() == 50);
}

TEST_CASE("quoted text is cut between letters and shows control characters") {
    CHECK(wayfolio::input::quoted("a\nb") == "\"a\\u000ab\"");
    std::string greek;
    for (int count = 0; count < 40; ++count) greek += "\xCE\xB1";
    CHECK(wayfolio::input::quoted("x" + greek) == "\"x" + greek.substr(0, 58) + "…\"");
}

TEST_CASE("a side file lies in the document's own folder, whatever its name says") {
    const Folder folder;
    folder.write("trace.csv", "0,1\n");
    folder.write("inner/outside.csv", "0,1\n");
    fs::create_symlink(folder.path / "inner/outside.csv", folder.path / "leads-out.csv");
    fs::create_symlink("trace.csv", folder.path / "stays.csv");
    CHECK(read_file_beside(folder.path, "trace.csv") == "0,1\n");
    CHECK(read_file_beside(folder.path, "stays.csv") == "0,1\n");
    const std::string round_about = "../" + folder.path.filename().string() + "/trace.csv";
    for (const std::string& name : std::vector<std::string>{round_about, "inner/outside.csv", "inner\\outside.csv", "..", ".", "",
                                                            "/etc/hostname", "leads-out.csv", "missing.csv", "inner"})
        CHECK_THROWS_AS(read_file_beside(folder.path, name), InputMissing);
}

TEST_CASE("a file that is not there, and a folder, are missing inputs with a reason") {
    const Folder folder;
    CHECK_THROWS_WITH(read_file(folder.path / "none.json"), Catch::Contains("cannot be opened"));
    CHECK_THROWS_WITH(read_file(folder.path), Catch::Contains("is a folder"));
}
