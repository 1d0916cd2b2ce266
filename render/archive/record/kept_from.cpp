#include "archive/record/making.hpp"

#include "archive/record/record.hpp"
#include "input/read_file.hpp"

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;

/// The files in data/inputs of a bag.
Files inputs_in(const fs::path& bag) {
    Files files;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(bag / "data/inputs", none))
        if (entry.is_regular_file(none) && !entry.is_symlink(none))
            files[entry.path().filename().string()] = input::read_regular_file(entry.path());
    return files;
}

}  // namespace

Making kept_from(const fs::path& path) {
    std::error_code none;
    if (!fs::is_directory(path, none)) return read_making(carried_files(input::read_file(path), path.string()), path.string());
    const std::vector<Revision> revisions = revisions_in(path);
    const fs::path bag = is_bag(path) || revisions.empty() ? path : revisions.back().folder;
    return read_making(inputs_in(bag), bag.string());
}

}  // namespace wayfolio::archive
