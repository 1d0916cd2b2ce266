#include "results/logo_picture.hpp"

#include <openssl/evp.h>

#include <algorithm>

namespace wayfolio::results {
namespace {

/// The reader has seen to it that the text is base64 without white space.
std::string decoded(const std::string& base64) {
    const auto padding = static_cast<std::size_t>(std::ranges::count(base64, '='));
    std::string bytes(base64.size() / 4 * 3 + 3, '\0');
    const int length = EVP_DecodeBlock(reinterpret_cast<unsigned char*>(bytes.data()), reinterpret_cast<const unsigned char*>(base64.data()),
                                       static_cast<int>(base64.size()));
    // EVP_DecodeBlock counts the bytes of the padding too.
    bytes.resize(length < 0 ? 0 : static_cast<std::size_t>(length) - std::min(padding, static_cast<std::size_t>(length)));
    return bytes;
}

}  // namespace

std::optional<Picture> logo_picture(const Document& document) {
    if (!document.job.laboratory || document.job.laboratory->logo.empty()) return std::nullopt;
    const std::string& logo = document.job.laboratory->logo;
    if (logo.starts_with("data:")) {
        const auto comma = logo.find(',');
        const auto format = logo.starts_with("data:image/svg") ? Picture::Format::Svg : Picture::Format::Png;
        return Picture{format, decoded(logo.substr(comma + 1))};
    }
    const auto file = std::ranges::find(document.side_files, logo, &SideFile::name);
    if (file == document.side_files.end()) return std::nullopt;
    return Picture{file->bytes.starts_with("\x89PNG") ? Picture::Format::Png : Picture::Format::Svg, file->bytes};
}

}  // namespace wayfolio::results
