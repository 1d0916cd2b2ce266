#pragma once
#include "archive/record/making.hpp"

namespace wayfolio::archive {

/// What was kept in a PDF or a record, as kept_from(), once the digests of the list of inputs, the fingerprint that the PDF states and the
/// manifests of the bag have been held against it: nothing is drawn from a document that somebody has put in the place of the kept one.
/// @throws input::InputMissing, input::InputRejected also with every file that is changed or missing
Making unchanged_from(const std::filesystem::path& path);

/// The same of the bytes of a PDF. @param name of it, for messages
Making unchanged_from_pdf(const std::string& pdf, const std::string& name);

}  // namespace wayfolio::archive
