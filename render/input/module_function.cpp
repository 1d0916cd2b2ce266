#include "input/module_function.hpp"

#include "input/data_folder.hpp"

#include <dlfcn.h>

namespace wayfolio::input {

ModuleFunction module_function(const std::string& module, const char* name) {
    ModuleFunction found;
    const std::filesystem::path data = data_folder();
    for (const auto& folder : {data, data / WAYFOLIO_MODULES_FROM_DATA}) {
        void* const library = dlopen((folder / (module + ".so")).c_str(), RTLD_NOW | RTLD_LOCAL);
        if (library != nullptr) found.function = dlsym(library, name);
        if (found.function != nullptr) return found;
        found.failure = dlerror();
    }
    return found;
}

}  // namespace wayfolio::input
