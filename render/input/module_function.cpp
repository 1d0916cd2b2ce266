#include "input/module_function.hpp"

#include "input/data_folder.hpp"

#include <dlfcn.h>

namespace wayfolio::input {

ModuleFunction module_function(const std::string& module, const char* name) {
    ModuleFunction found;
    const std::filesystem::path data = data_folder();
    const std::string file = module + ".so";
    // Where its file is, whatever is wrong with it is told, rather than that it lies in no other folder.
    std::error_code none;
    const bool beside_data = std::filesystem::exists(data / file, none);
    const std::filesystem::path path = ((beside_data ? data : data / WAYFOLIO_MODULES_FROM_DATA) / file).lexically_normal();
    // What it calls is bound when it is first called, as for a program: most of it never is.
    void* const library = dlopen(path.c_str(), RTLD_LAZY | RTLD_LOCAL);
    if (library != nullptr) found.function = dlsym(library, name);
    if (found.function == nullptr) found.failure = dlerror();
    return found;
}

}  // namespace wayfolio::input
