#pragma once
#include <filesystem>
#include <string>

/// What can be verified at all. What may be a damaged PDF or record of ours is let through: that is for the verdict to say.
namespace wayfolio::archive {

/// @throws NothingToVerify for bytes that are no PDF, or a sound PDF that another program made
void require_verifiable(const std::string& bytes, const std::string& name);

/// @throws NothingToVerify for a folder that holds something, but nothing of a record
void require_verifiable_folder(const std::filesystem::path& folder);

}  // namespace wayfolio::archive
