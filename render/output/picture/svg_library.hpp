#pragma once
#include <librsvg/rsvg.h>

namespace wayfolio::output {

/// The functions of librsvg that a picture needs, with the types its header gives them.
struct SvgLibrary {
    decltype(&rsvg_handle_new_from_data) new_from_data;
    decltype(&rsvg_handle_set_dpi) set_dpi;
    decltype(&rsvg_handle_render_document) render_document;
    decltype(&rsvg_handle_get_intrinsic_size_in_pixels) get_intrinsic_size_in_pixels;
    decltype(&rsvg_handle_get_intrinsic_dimensions) get_intrinsic_dimensions;
    decltype(&rsvg_major_version) major_version;
    decltype(&rsvg_minor_version) minor_version;
    decltype(&rsvg_micro_version) micro_version;
};

/// Loaded at the first SVG picture: linked, librsvg and what it brings took a fifth of the program's start, and few reports have a
/// logo. @throws files::OutputFailed when it is not installed
const SvgLibrary& svg_library();

}  // namespace wayfolio::output
