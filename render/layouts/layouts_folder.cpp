#include "layouts/layouts_folder.hpp"

#include "input/problem.hpp"
#include "layouts/layout.hpp"
#include "layouts_places.hpp"

#include <algorithm>

namespace wayfolio::layouts {

namespace fs = std::filesystem;

fs::path layouts_folder() {
    std::error_code none;
    const fs::path program = fs::read_symlink("/proc/self/exe", none);
    const fs::path from_build = program.lexically_relative(fs::weakly_canonical(build_folder, none));
    if (!from_build.empty() && *from_build.begin() != "..") return source_layouts_folder;
    const fs::path beside = program.parent_path().parent_path() / "share/wayfolio/layouts";
    if (fs::is_directory(beside, none)) return beside;
    return installed_layouts_folder;
}

std::vector<std::string> shipped_layouts() {
    std::vector<std::string> names;
    std::error_code failed;
    const fs::path folder = layouts_folder();
    fs::directory_iterator entries(folder, failed);
    if (failed) throw input::InputMissing(folder.string(), "the layouts that come with wayfolio are not there (install it again)");
    for (const auto& entry : entries)
        if (entry.path().extension() == ".json" && entry.path().stem().extension().empty()) names.push_back(entry.path().stem().string());
    std::ranges::sort(names);
    return names;
}

}  // namespace wayfolio::layouts
