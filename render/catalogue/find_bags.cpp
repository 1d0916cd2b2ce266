#include "catalogue/visit.hpp"

#include <algorithm>
#include <sys/stat.h>

namespace wayfolio::catalogue {
namespace {

namespace fs = std::filesystem;

/// A folder named as a revision is one even where its bagit.txt is lost: then it is damaged, not absent.
bool looks_like_bag(const fs::path& folder) {
    std::error_code none;
    return fs::exists(folder / "bagit.txt", none) ||
           (folder.filename().string().starts_with("revision-") && fs::exists(folder / "bag-info.txt", none));
}

}  // namespace

Tree find_bags(const fs::path& root) {
    Tree tree;
    std::vector<fs::path> pending{root};
    while (!pending.empty()) {
        const fs::path folder = std::move(pending.back());
        pending.pop_back();
        if (looks_like_bag(folder)) {
            tree.bags.push_back(folder);
            continue;
        }
        std::error_code error;
        fs::directory_iterator entry(folder, error);
        for (; !error && entry != fs::directory_iterator(); entry.increment(error)) {
            std::error_code none;
            const bool hidden = entry->path().filename().string().starts_with(".");
            if (!hidden && !entry->is_symlink(none) && entry->is_directory(none)) pending.push_back(entry->path());
        }
        if (error) tree.unreadable.push_back(folder.string() + ": " + error.message());
    }
    std::ranges::sort(tree.bags);
    return tree;
}

std::string stamp_of(const fs::path& bag) {
    std::string stamp;
    for (const char* name : {"bagit.txt", "bag-info.txt", "manifest-sha256.txt", "tagmanifest-sha256.txt", "data/evaluation.json",
                             "data/inputs/wayfolio-result.json"}) {
        struct stat found {};
        if (stat((bag / name).c_str(), &found) == 0)
            stamp +=
                std::to_string(found.st_size) + "@" + std::to_string(found.st_mtim.tv_sec) + "." + std::to_string(found.st_mtim.tv_nsec);
        stamp += ";";
    }
    return stamp;
}

}  // namespace wayfolio::catalogue
