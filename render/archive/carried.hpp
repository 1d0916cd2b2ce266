#pragma once
#include "archive/record/making.hpp"

namespace wayfolio::archive {

/// The files that a PDF carries.
/// @param name of the PDF, for messages
/// @throws input::InputRejected when the bytes are no PDF, or a carried file cannot be read or is larger than an input may be
Files carried_files(const std::string& pdf, const std::string& name);

}  // namespace wayfolio::archive
