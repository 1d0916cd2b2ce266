#include "archive/record/bag.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>

#include <charconv>
#include <set>
#include <sstream>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;
using Faults = std::vector<std::string>;
using Entries = std::map<std::string, std::string>;  ///< digest by path

/// RFC 8493, 2.1.3: line ends and the percent sign are written as their percent codes.
std::string decoded_path(std::string path) {
    for (std::size_t at = path.find('%'); at != std::string::npos; at = path.find('%', at + 1)) {
        unsigned int code = 0;
        const char *from = path.data() + at + 1, *to = from + std::min<std::size_t>(2, path.size() - at - 1);
        if (to - from == 2 && std::from_chars(from, to, code, 16).ptr == to && (code == '%' || code == '\n' || code == '\r'))
            path.replace(at, 3, 1, static_cast<char>(code));
    }
    return path;
}

/// A path that stays inside the bag.
bool stays_inside(const std::string& path) {
    if (path.empty() || path.front() == '/' || path.find('\\') != std::string::npos) return false;
    for (const fs::path& part : fs::path(path))
        if (part == ".." || part == "." || part == "~") return false;
    return true;
}

Entries read_manifest(const fs::path& folder, const std::string& name, Faults& faults) {
    Entries entries;
    std::error_code none;
    if (!fs::is_regular_file(folder / name, none)) {
        faults.push_back(name + ": missing");
        return entries;
    }
    std::istringstream lines(input::read_regular_file(folder / name));
    for (std::string line; std::getline(lines, line);) {
        if (line.ends_with('\r')) line.pop_back();
        const std::size_t blank = line.find_first_of(" \t"), start = line.find_first_not_of(" \t", blank);
        if (blank == std::string::npos || start == std::string::npos) {
            if (!line.empty()) faults.push_back(name + ": a line that is not a digest and a path");
            continue;
        }
        const std::string path = decoded_path(line.substr(start));
        if (!stays_inside(path))
            faults.push_back(fmt::format("{}: names {}, which leads out of the bag", name, path));
        else if (!entries.emplace(path, line.substr(0, blank)).second)
            faults.push_back(fmt::format("{}: names {} twice", name, path));
    }
    return entries;
}

/// All files of the payload, or the tag files beside it, by path inside the bag.
std::set<std::string> files_in(const fs::path& folder, bool payload, Faults& faults) {
    std::set<std::string> found;
    const fs::path top = payload ? folder / "data" : folder;
    std::error_code none, failed;
    for (auto entry = fs::recursive_directory_iterator(top, failed); entry != fs::recursive_directory_iterator(); entry.increment(failed)) {
        const std::string path = entry->path().lexically_relative(folder).string();
        if (!payload && path == "data") entry.disable_recursion_pending();
        if (entry->is_symlink(none)) faults.push_back(path + ": a link, where a record has files");
        else if (entry->is_regular_file(none)) found.insert(path);
        else if (!entry->is_directory(none)) faults.push_back(path + ": a pipe or a device, where a record has files");
    }
    if (failed && failed != std::errc::no_such_file_or_directory)
        faults.push_back((payload ? "data" : "the folder") + std::string(": cannot be looked into: ") + failed.message());
    return found;
}

/// None, and a fault, where the file cannot be read.
std::optional<Digests> digests_if_readable(const fs::path& folder, const std::string& path, Faults& faults) {
    try {
        return digests_of_file(folder / path);
    } catch (const input::InputMissing&) {
        faults.push_back(path + ": cannot be read");
        return std::nullopt;
    }
}

void compare(const fs::path& folder, const std::set<std::string>& files, const std::string& kind, Faults& faults) {
    const std::string name256 = kind + "-sha256.txt", name512 = kind + "-sha512.txt";
    const Entries sha256 = read_manifest(folder, name256, faults), sha512 = read_manifest(folder, name512, faults);
    std::set<std::string> paths = files;
    for (const Entries* entries : {&sha256, &sha512})
        for (const auto& [path, digest] : *entries) paths.insert(path);
    for (const std::string& path : paths) {
        if (!files.contains(path)) {
            faults.push_back(path + ": missing");
            continue;
        }
        const auto one = sha256.find(path), other = sha512.find(path);
        if (one == sha256.end() && other == sha512.end()) {
            faults.push_back(path + ": added; no manifest names it");
            continue;
        }
        if (one == sha256.end() || other == sha512.end())
            faults.push_back(fmt::format("{}: not in {}", path, one == sha256.end() ? name256 : name512));
        const auto found = digests_if_readable(folder, path, faults);
        if (!found) continue;
        const bool wrong256 = one != sha256.end() && one->second != found->sha256,
                   wrong512 = other != sha512.end() && other->second != found->sha512;
        if (wrong256 && wrong512) faults.push_back(path + ": changed (its digests differ from the manifests)");
        else if (wrong256 || wrong512)
            faults.push_back(
                fmt::format("{}: its digest in {} is another one; the manifest was changed", path, wrong256 ? name256 : name512));
    }
}

void check_oxum(const fs::path& folder, const std::set<std::string>& payload, Faults& faults) {
    std::uintmax_t octets = 0;
    for (const std::string& path : payload) {
        std::error_code none;
        octets += fs::file_size(folder / path, none);
    }
    const std::string found = fmt::format("{}.{}", octets, payload.size()), said = bag_info(folder, "Payload-Oxum");
    if (!said.empty() && said != found)
        faults.push_back(fmt::format("bag-info.txt: Payload-Oxum is {}, the payload has {} (bytes.files)", said, found));
}

}  // namespace

bool is_bag(const fs::path& folder) {
    std::error_code none;
    return fs::is_regular_file(folder / "bagit.txt", none) || fs::is_directory(folder / "data", none);
}

std::string bag_info(const fs::path& folder, std::string_view label) {
    std::error_code none;
    if (!fs::is_regular_file(folder / "bag-info.txt", none)) return {};
    std::istringstream lines(input::read_regular_file(folder / "bag-info.txt"));
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with(std::string(label) + ": ")) return line.substr(label.size() + 2);
    return {};
}

std::vector<std::string> bag_faults(const fs::path& folder) {
    Faults faults;
    std::error_code none;
    if (!fs::is_regular_file(folder / "bagit.txt", none)) faults.push_back("bagit.txt: missing");
    else if (input::read_regular_file(folder / "bagit.txt") != "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
        faults.push_back("bagit.txt: does not say BagIt 1.0 in UTF-8");
    const std::set<std::string> payload = files_in(folder, /*payload=*/true, faults);
    std::set<std::string> tags = files_in(folder, /*payload=*/false, faults);
    tags.erase("tagmanifest-sha256.txt");
    tags.erase("tagmanifest-sha512.txt");
    compare(folder, payload, "manifest", faults);
    compare(folder, tags, "tagmanifest", faults);
    check_oxum(folder, payload, faults);
    return faults;
}

}  // namespace wayfolio::archive
