#pragma once
#include "frame/frame.hpp"

#include <string>
#include <string_view>
#include <vector>

/// Finished pages in a file: what of them is drawn, nothing of what is read aloud or linked. Of this build and machine alone.
namespace wayfolio::bench {

std::string packed(const std::vector<frame::Frame>& pages, const std::vector<std::string>& font_files);

struct Unpacked {
    std::vector<frame::Frame> pages;
    std::vector<std::string> font_files;  ///< by the index of a face
};
/// @throws std::out_of_range for half a file
Unpacked unpacked(std::string_view bytes);

}  // namespace wayfolio::bench
