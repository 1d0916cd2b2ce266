#include "output/output.hpp"
#include "output/pdf/qpdf.hpp"
#include "output/picture/svg_library.hpp"

#include <cairo.h>
#include <fmt/format.h>
#include <libdeflate.h>
#include <zlib.h>

namespace wayfolio::output {

LibraryVersions library_versions() {
    return {{"cairo", cairo_version_string()},
            {"qpdf", QPDF::QPDFVersion()},
            {"zlib", zlibVersion()},
            {"libdeflate", LIBDEFLATE_VERSION_STRING}};  // of its header: the library cannot be asked
}

LibraryVersion svg_library_version() {
    const SvgLibrary& library = svg_library();
    return {"librsvg", fmt::format("{}.{}.{}", *library.major_version, *library.minor_version, *library.micro_version)};
}

}  // namespace wayfolio::output
