#pragma once
#include "input/problem.hpp"
#include "document/document.hpp"
#include "layouts/layout.hpp"
#include "text/shaper.hpp"

#include <vector>

namespace wayfolio::produce {

/// One fault for each text of the document that the private fonts cannot set, in its order; what it marks internal and keys of its own
/// ("x-...") are never drawn. @throws text::FontFailed when the fonts themselves cannot be used
std::vector<input::Problem> unset_texts(const document::Document& document, const text::Shaper& shaper);

/// The same of a layout's own words.
std::vector<input::Problem> unset_texts(const layouts::Layout& layout, const text::Shaper& shaper);

/// The result of `draw`. Where it meets a character that no font has, the faults of the document or of the layout are thrown in its place.
/// @throws input::InputRejected, and whatever `draw` throws else
template <class Draw>
auto or_unset_texts(const document::Document& document, const layouts::Layout& layout, const text::Shaper& shaper, const Draw& draw) {
    try {
        return draw();
    } catch (const text::GlyphMissing&) {
        std::vector<input::Problem> faults = unset_texts(document, shaper);
        if (faults.empty()) faults = unset_texts(layout, shaper);
        if (faults.empty()) throw;
        throw input::InputRejected(std::move(faults));
    }
}

}  // namespace wayfolio::produce
