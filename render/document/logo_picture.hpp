#pragma once
#include "document/document.hpp"

#include <optional>
#include <string>

namespace wayfolio::document {

/// An image as it came, ready to be drawn.
struct Picture {
    enum class Format { Png, Svg } format;
    std::string bytes;
};

/// The laboratory's logo: the side file's bytes, or what a data: URI holds (base64, RFC 2397). Empty if the document has none.
std::optional<Picture> logo_picture(const Document& document);

}  // namespace wayfolio::document
