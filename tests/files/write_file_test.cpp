#include "files/unfinished.hpp"
#include "files/write_file.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <optional>

using namespace wayfolio;
using files::write_file;
using support::file_bytes;
using support::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

/// Whether the failure was one of creating (exit 73), or none at all.
std::optional<bool> failure(const std::filesystem::path& path, const std::string& bytes) {
    try {
        write_file(path, bytes);
        return std::nullopt;
    } catch (const files::OutputFailed& failed) {
        CHECK(std::string(failed.what()).find(path.string()) != std::string::npos);
        return failed.cannot_create();
    }
}

std::size_t files_in(const TemporaryFolder& folder) {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder.path()), {}));
}

/// Does something in a child process and gives its exit code: 0 fine, 1 could not create, 2 another failure.
template <class Action>
int in_child(const Action& action) {
    const pid_t child = fork();
    if (child == 0) {
        const std::optional<bool> failed = action();
        _exit(!failed ? 0 : *failed ? 1 : 2);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

}  // namespace

TEST_CASE("a file is written whole and replaces what was there, with its permissions") {
    const TemporaryFolder folder;
    const std::string path = folder.file("out.pdf", "old and longer");
    chmod(path.c_str(), 0640);
    write_file(path, "new");
    CHECK(file_bytes(path) == "new");
    CHECK((std::filesystem::status(path).permissions() & std::filesystem::perms::all) == std::filesystem::perms(0640));
    CHECK(files_in(folder) == 1);
}

TEST_CASE("a new file has the permissions that the user's mask leaves") {
    const TemporaryFolder folder;
    const mode_t old = umask(027);
    write_file(folder / "out.pdf", std::string("a\0b", 3));
    umask(old);
    CHECK(file_bytes(folder / "out.pdf") == std::string("a\0b", 3));
    CHECK((std::filesystem::status(folder / "out.pdf").permissions() & std::filesystem::perms::all) ==
          std::filesystem::perms(0640));
}

TEST_CASE("a link stays a link and what it points to is replaced") {
    const TemporaryFolder folder;
    const std::string target = folder.file("real.pdf", "old");
    std::filesystem::create_symlink(target, folder / "link.pdf");
    write_file(folder / "link.pdf", "new");
    CHECK(std::filesystem::is_symlink(folder / "link.pdf"));
    CHECK(file_bytes(target) == "new");
}

TEST_CASE("a folder, and a folder that is not there, cannot be created") {
    const TemporaryFolder folder;
    CHECK(failure(folder.path(), "x") == true);
    CHECK(failure(folder / "missing/out.pdf", "x") == true);
    CHECK(files_in(folder) == 0);
}

TEST_CASE("a full disk is an input/output error") { CHECK(failure("/dev/full", "x") == false); }

TEST_CASE("a device that takes bytes is written to") { CHECK_FALSE(failure("/dev/null", "x").has_value()); }

TEST_CASE("a write that fails half way leaves the old file and nothing else") {
    const TemporaryFolder folder;
    const std::string path = folder.file("out.pdf", "old");
    const int code = in_child([&] {
        signal(SIGXFSZ, SIG_IGN);
        const rlimit small{1000, 1000};
        setrlimit(RLIMIT_FSIZE, &small);
        return failure(path, std::string(5000, 'x'));
    });
    CHECK(code == 2);
    CHECK(file_bytes(path) == "old");
    CHECK(files_in(folder) == 1);
}

TEST_CASE("a folder that may not be written to cannot take a file") {
    const TemporaryFolder folder;
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0555));
    const int code = in_child([&] {
        // As root every folder may be written to: become nobody first.
        if (getuid() == 0 && setuid(65534) != 0) return std::optional<bool>();
        return failure(folder / "out.pdf", "x");
    });
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0755));
    CHECK(code == 1);
    CHECK(files_in(folder) == 0);
}

TEST_CASE("what a killed process left behind stands in nobody's way") {
    const TemporaryFolder folder;
    folder.file(".out.pdf.part-" + std::to_string(getpid()) + "-0", "left");
    write_file(folder / "out.pdf", "new");
    CHECK(file_bytes(folder / "out.pdf") == "new");
}

TEST_CASE("what is not moved into place is gone, a file as a folder with all that it holds") {
    const TemporaryFolder folder;
    for (const auto kind : {files::Unfinished::Kind::File, files::Unfinished::Kind::Folder}) {
        const files::Unfinished made(folder / "made", kind);
        CHECK(std::filesystem::is_directory(made.path()) == (kind == files::Unfinished::Kind::Folder));
        if (std::filesystem::is_directory(made.path())) std::filesystem::create_directories(made.path() / "a/b");
        CHECK(files_in(folder) == 1);
        CHECK_FALSE(std::filesystem::exists(folder / "made"));
    }
    CHECK(files_in(folder) == 0);
}

TEST_CASE("a folder is moved into place whole, and never onto one that holds something") {
    const TemporaryFolder folder;
    files::Unfinished first(folder / "made", files::Unfinished::Kind::Folder), second(folder / "made", files::Unfinished::Kind::Folder);
    for (const files::Unfinished* one : {&first, &second}) write_file(one->path() / "inside", one == &first ? "first" : "second");
    first.move_into_place();
    CHECK_THROWS_AS(second.move_into_place(), files::OutputFailed);
    CHECK(file_bytes(folder / "made/inside") == "first");
}

TEST_CASE("the name of what is unfinished tells its target") {
    const TemporaryFolder folder;
    const files::Unfinished made(folder / "revision-3", files::Unfinished::Kind::Folder);
    CHECK(files::unfinished_target(made.path().filename().string()) == "revision-3");
    CHECK(files::unfinished_target(made.path().filename().string() + "-journal") == "revision-3");
    for (const char* other : {"revision-3", "revision-3.part-1-0", ".part-1-0", ".hidden", ""})
        CHECK_FALSE(files::unfinished_target(other));
}

TEST_CASE("what killed runs left of many files is removed at once, and is then looked for no more") {
    const TemporaryFolder folder;
    for (const char* left : {".a.pdf.part-1-0", ".b.pdf.part-2-0", ".c.pdf.part-3-0", ".a.pdf.part-x-0"}) folder.file(left, "left");
    const files::Unfinished being_made(folder / "b.pdf", files::Unfinished::Kind::File, files::LeftOver::Gone);
    CHECK(fs::exists(folder / ".b.pdf.part-2-0"));
    files::remove_left_over(folder.path(), [](const std::string& target) { return target == "a.pdf" || target == "b.pdf"; });
    CHECK_FALSE(fs::exists(folder / ".a.pdf.part-1-0"));
    CHECK_FALSE(fs::exists(folder / ".b.pdf.part-2-0"));
    CHECK(fs::exists(being_made.path()));
    CHECK(fs::exists(folder / ".c.pdf.part-3-0"));
    CHECK(fs::exists(folder / ".a.pdf.part-x-0"));
    files::write_file(folder / "c.pdf", "new", files::LeftOver::Gone);
    CHECK(support::file_bytes(folder / "c.pdf") == "new");
    CHECK(fs::exists(folder / ".c.pdf.part-3-0"));
}

TEST_CASE("what a killed run left of a target is removed by the next one, but nothing that is being made or has another name") {
    const TemporaryFolder folder;
    const std::string target = folder / "a.txt";
    folder.file(".a.txt.part-1-0", "left by a killed run");
    fs::create_directory(folder / ".a.txt.part-2-7");
    folder.file(".a.txt.part-2-7/more", "left too");
    for (const char* other : {".a.txt.part-x-0", ".a.txt.part-1", ".b.txt.part-1-0", "a.txt.part-1-0",
        ".a.txt.part-1-0-journal"}) folder.file(other, "kept");
    const files::Unfinished being_made(target, files::Unfinished::Kind::File);
    files::write_file(target, "new");
    CHECK(fs::exists(being_made.path()));
    CHECK_FALSE(fs::exists(folder / ".a.txt.part-1-0"));
    CHECK_FALSE(fs::exists(folder / ".a.txt.part-2-7"));
    for (const char* other : {".a.txt.part-x-0", ".a.txt.part-1", ".b.txt.part-1-0", "a.txt.part-1-0", ".a.txt.part-1-0-journal"})
        CHECK(fs::exists(folder / other));
}
