#include "input/data_folder.hpp"

#include "data_places.hpp"

#include <dlfcn.h>
#include <link.h>

namespace wayfolio::input {
namespace {

namespace fs = std::filesystem;

/// The file that this code was loaded from. The loader gives the program itself no name (dlinfo(3), link_map).
fs::path file_of_this_code() {
    Dl_info info{};
    link_map* map = nullptr;
    const bool found = dladdr1(reinterpret_cast<const void*>(&data_folder), &info, reinterpret_cast<void**>(&map), RTLD_DL_LINKMAP) != 0;
    const bool shared = found && map != nullptr && *map->l_name != '\0';
    std::error_code none;
    return fs::canonical(shared ? map->l_name : "/proc/self/exe", none);
}

}  // namespace

fs::path data_folder() {
    std::error_code none;
    const fs::path file = file_of_this_code();
    const fs::path from_build = file.lexically_relative(fs::weakly_canonical(build_folder, none));
    if (!from_build.empty() && *from_build.begin() != "..") return built_data_folder;
    for (const char* relative : {data_from_program, data_from_library, data_from_module}) {
        const fs::path beside = (file.parent_path() / relative).lexically_normal();
        if (fs::is_directory(beside, none)) return beside;
    }
    return installed_data_folder;
}

}  // namespace wayfolio::input
