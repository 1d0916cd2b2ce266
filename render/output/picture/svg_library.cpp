#include "output/picture/svg_library.hpp"

#include "output/output.hpp"

#include <dlfcn.h>

namespace wayfolio::output {

namespace {

SvgLibrary load() {
    // Never closed: GLib types that a library registered cannot be taken back.
    void* library = dlopen("librsvg-2.so.2", RTLD_NOW | RTLD_LOCAL);
    const auto find = [&]<class Function>(Function& function, const char* name) {
        function = library ? reinterpret_cast<Function>(dlsym(library, name)) : nullptr;
        if (!function)
            throw files::OutputFailed("picture", std::string("SVG pictures need librsvg: ") + dlerror(), /*cannot_create=*/false);
    };
    SvgLibrary functions{};
    find(functions.new_from_data, "rsvg_handle_new_from_data");
    find(functions.set_dpi, "rsvg_handle_set_dpi");
    find(functions.render_document, "rsvg_handle_render_document");
    find(functions.get_intrinsic_size_in_pixels, "rsvg_handle_get_intrinsic_size_in_pixels");
    find(functions.get_intrinsic_dimensions, "rsvg_handle_get_intrinsic_dimensions");
    find(functions.major_version, "rsvg_major_version");
    find(functions.minor_version, "rsvg_minor_version");
    find(functions.micro_version, "rsvg_micro_version");
    return functions;
}

}  // namespace

const SvgLibrary& svg_library() {
    static const SvgLibrary functions = load();
    return functions;
}

}  // namespace wayfolio::output
