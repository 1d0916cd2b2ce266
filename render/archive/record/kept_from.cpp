#include "archive/record/making.hpp"

#include "archive/record/record.hpp"
#include "input/byte_source.hpp"
#include "input/read_file.hpp"

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;

/// The files in data/inputs of a bag, but those that are larger than an input may be: they lie apart, and are read where they are.
Files inputs_in(const fs::path& bag) {
    Files files;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(bag / "data/inputs", none))
        if (entry.is_regular_file(none) && !entry.is_symlink(none) && entry.file_size(none) <= input::largest_file)
            files[entry.path().filename().string()] = input::read_regular_file(entry.path());
    return files;
}

}  // namespace

Apart beside(const fs::path& folder) {
    return [folder](const std::string& name) { return input::source_beside(folder, name); };
}

Making kept_from(const fs::path& path) {
    std::error_code none;
    if (!fs::is_directory(path, none))
        return read_making(carried_files(input::read_file(path), path.string()), path.string(), beside(path.parent_path()));
    const std::vector<Revision> revisions = revisions_in(path);
    const fs::path bag = is_bag(path) || revisions.empty() ? path : revisions.back().folder;
    return read_making(inputs_in(bag), bag.string(), beside(bag / "data/inputs"));
}

}  // namespace wayfolio::archive
