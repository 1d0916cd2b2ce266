#include "output/output.hpp"

#include "input/encoding.hpp"

namespace wayfolio::output {

OutputFailed::OutputFailed(std::string path, std::string reason, bool cannot_create)
    : text_(input::printable(path + ": " + reason)), cannot_create_(cannot_create) {}

PictureRefused::PictureRefused(std::string found, std::string expected)
    : found_(std::move(found)), expected_(std::move(expected)), text_("found " + found_ + "; expected " + expected_) {}

}  // namespace wayfolio::output
