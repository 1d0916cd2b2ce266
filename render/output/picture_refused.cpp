#include "output/output.hpp"

namespace wayfolio::output {

PictureRefused::PictureRefused(std::string found, std::string expected)
    : found_(std::move(found)), expected_(std::move(expected)), text_("found " + found_ + "; expected " + expected_) {}

}  // namespace wayfolio::output
