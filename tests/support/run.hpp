#pragma once
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <sys/wait.h>

/// Runs programs from tests.
namespace wayfolio::support {

inline std::string file_bytes(const std::filesystem::path& path) {
    std::ostringstream bytes;
    bytes << std::ifstream(path, std::ios::binary).rdbuf();
    return bytes.str();
}

/// A fresh folder that goes away with its owner.
class TemporaryFolder {
public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "wayfolio-test-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
        path_ = name;
    }
    ~TemporaryFolder() { std::filesystem::remove_all(path_); }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }
    /// Writes a file into the folder and gives its path.
    std::string file(const std::string& name, const std::string& bytes) const {
        std::ofstream(path_ / name, std::ios::binary) << bytes;
        return *this / name;
    }

private:
    std::filesystem::path path_;
};

struct Ran {
    int code;  ///< exit code; 128 + signal where a signal ended the program
    std::string out, err;
};

/// Runs a shell command line and gives what it wrote.
inline Ran run(const std::string& command_line) {
    const TemporaryFolder folder;
    const std::string err = folder / "err";
    FILE* pipe = popen(("{ " + command_line + "\n} 2>" + err).c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("no pipe");
    std::string out;
    char buffer[65536];
    for (std::size_t got; (got = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) out.append(buffer, got);
    const int status = pclose(pipe);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), std::move(out), file_bytes(err)};
}

}  // namespace wayfolio::support
