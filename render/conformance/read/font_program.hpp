#pragma once
#include "conformance/read/handle.hpp"
#include "unpack/stream_unpacker.hpp"

#include <memory>
#include <optional>

namespace wayfolio::conformance {

/// The font program that a font carries, as FreeType reads it.
class FontProgram {
public:
    /// @param font a font of a page's resources. Nothing can be asked of one without a program, or of Type 3.
    FontProgram(Handle font, unpack::StreamUnpacker& unpacker);
    ~FontProgram();
    FontProgram(const FontProgram&) = delete;
    FontProgram& operator=(const FontProgram&) = delete;

    /// Width in thousandths of the size of the glyph that a character code shows; none where program or encoding cannot be read.
    [[nodiscard]] std::optional<double> width(unsigned code) const;

private:
    struct Face;
    std::unique_ptr<Face> face_;
};

/// The font itself; of a composite font its one descendant.
Handle inner_font(Handle font);

/// The width that the font dictionary gives a character code (ISO 32000-1, 9.2.4 and 9.7.4.3); none where its encoding is not understood.
std::optional<double> said_width(Handle font, unsigned code);

}  // namespace wayfolio::conformance
