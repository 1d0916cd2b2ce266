#pragma once
#include "output/pdf/draw_pages.hpp"
#include "output/pdf/qpdf.hpp"

namespace wayfolio::output {

/// Pages that one surface drew, as libqpdf has them, with their contents. Trap: nothing may count or add objects in this file; libqpdf
/// then reads all that Cairo wrote, and most of that is a structure tree which nobody wants.
class PagesFile {
public:
    explicit PagesFile(DrawnPages drawn);

    [[nodiscard]] std::span<const Handle> pages() const { return std::span(pages_).subspan(1); }
    /// All of the surface's, by name.
    [[nodiscard]] Handle fonts() const;
    [[nodiscard]] const std::vector<TagRecord>& records() const { return drawn_.records; }
    /// What Cairo calls itself.
    [[nodiscard]] std::string producer();

private:
    DrawnPages drawn_;
    QPDF file_;
    std::vector<Handle> pages_;  ///< the first is the sample of glyphs
};

/// The fonts that a page names; null where it names none.
Handle fonts_of(Handle page);

}  // namespace wayfolio::output
