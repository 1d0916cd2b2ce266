#include "document/logo_picture.hpp"

#include "input/encoding.hpp"

#include <algorithm>

namespace wayfolio::document {

std::optional<Picture> logo_picture(const Document& document) {
    if (!document.job.laboratory || document.job.laboratory->logo.empty()) return std::nullopt;
    const std::string& logo = document.job.laboratory->logo;
    if (logo.starts_with("data:")) {
        const auto comma = logo.find(',');
        const auto format = logo.starts_with("data:image/svg") ? Picture::Format::Svg : Picture::Format::Png;
        return Picture{format, input::decoded_base64(logo.substr(comma + 1))};
    }
    const auto file = std::ranges::find(document.side_files, logo, &SideFile::name);
    if (file == document.side_files.end()) return std::nullopt;
    return Picture{file->bytes.starts_with("\x89PNG") ? Picture::Format::Png : Picture::Format::Svg, file->bytes};
}

}  // namespace wayfolio::document
