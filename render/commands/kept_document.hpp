#pragma once
#include "document/document.hpp"

namespace wayfolio::commands {

/// A document as it is, or the one that a PDF or a record carries; "-" is a document on standard input.
/// @throws input::InputMissing, input::InputRejected
document::Document document_of(const std::string& path);

}  // namespace wayfolio::commands
