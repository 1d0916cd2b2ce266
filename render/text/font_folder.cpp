#include "text/font_folder.hpp"

#include "private_fonts.hpp"

#include <filesystem>

namespace wayfolio::text {

std::string font_folder() {
    namespace fs = std::filesystem;
    std::error_code none;
    const fs::path program = fs::read_symlink("/proc/self/exe", none);
    const fs::path from_build = program.lexically_relative(fs::weakly_canonical(build_folder, none));
    if (!from_build.empty() && *from_build.begin() != "..") return std::string(build_folder) + "/fonts";
    const fs::path beside = program.parent_path().parent_path() / "share/wayfolio/fonts";
    if (fs::is_directory(beside, none)) return beside.string();
    return installed_font_folder;
}

}  // namespace wayfolio::text
