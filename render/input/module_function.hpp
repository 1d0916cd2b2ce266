#pragma once
#include <string>

namespace wayfolio::input {

/// A function of a module, or why there is none.
struct ModuleFunction {
    void* function = nullptr;
    std::string failure;
};

/// The function called `name` of a module that was built with this library and lies where its build or installation put it. The module is
/// loaded when it is first asked for, with all that it is linked with, and never closed: what few runs need would take time and memory in
/// all of them. Modules speak C: no exception and no type of the C++ library goes from one to the other.
ModuleFunction module_function(const std::string& module, const char* name);

}  // namespace wayfolio::input
