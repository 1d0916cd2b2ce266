#pragma once
#include "document/document.hpp"
#include "input/problem.hpp"
#include "output/output.hpp"

#include <vector>

namespace wayfolio::produce {

/// Why the logo of the document cannot be drawn, at its place; empty where it can or there is none.
/// @throws files::OutputFailed when it needs librsvg, and that is not installed
std::vector<input::Problem> logo_faults(const document::Document& document);

/// The result of `draw`. A picture that it cannot draw is told as a fault of the document, at the place of the logo.
/// @throws input::InputRejected, and whatever `draw` throws else
template <class Draw>
auto or_logo_fault(const document::Document& document, const Draw& draw) {
    try {
        return draw();
    } catch (const output::PictureRefused&) {
        throw input::InputRejected(logo_faults(document));
    }
}

}  // namespace wayfolio::produce
