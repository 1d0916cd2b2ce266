#include "service/records/once.hpp"

#include "files/write_file.hpp"
#include "input/digest.hpp"
#include "input/read_file.hpp"
#include "service/answers/problem.hpp"

#include <algorithm>

namespace wayfolio::service {
namespace {

namespace fs = std::filesystem;

void require_key(const std::string& key) {
    constexpr std::size_t longest = 255;
    const bool printable = std::ranges::all_of(key, [](char c) { return c >= ' ' && c <= '~'; });
    if (key.size() > longest || !printable)
        throw Refused(problems::malformed, "Idempotency-Key: at most 255 printable characters are wanted");
}

/// All that makes one filing another; not the boundaries of a body, which differ from try to try.
std::string digest_of(const Call& call) {
    std::string all;
    const auto add_all = [&](const auto& pairs) {
        for (const auto& [name, bytes] : pairs) all += input::sha256_hex(name) + input::sha256_hex(bytes);
    };
    add_all(call.options);
    add_all(call.files.parts);
    add_all(call.files.side_files);
    return input::sha256_hex(all);
}

/// Gives the file its content unless it has one; of several that do so at once, one does. @returns the content it has
std::string claim(const fs::path& file, const std::string& content) {
    const fs::path own = file.string() + "-" + content;
    std::error_code error, none;
    files::write_file(own, content);
    fs::create_hard_link(own, file, error);
    fs::remove(own, none);
    if (error && error != std::errc::file_exists) throw files::OutputFailed(file.string(), error.message(), /*cannot_create=*/true);
    return input::read_regular_file(file);
}

}  // namespace

void require_first_use(const Call& call, const fs::path& records) {
    const std::string& key = call.request.key;
    if (key.empty()) return;
    require_key(key);
    const fs::path folder = records / ".keys";  // hidden, so that no search for records looks into it
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) throw files::OutputFailed(folder.string(), error.message(), /*cannot_create=*/true);
    const std::string asked = digest_of(call);
    if (claim(folder / input::sha256_hex(key), asked) != asked) throw Refused(problems::key_used, "");
}

}  // namespace wayfolio::service
