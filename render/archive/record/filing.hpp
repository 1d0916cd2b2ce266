#pragma once
#include "produce/inputs.hpp"

#include <filesystem>

namespace wayfolio::archive {

/// A revision among the records of a laboratory.
struct Filed {
    std::filesystem::path folder;
    bool now = false;  ///< not before this call
};

/// The folder of a job's record: its number, or a digest of it where a file system could not hold that.
std::string record_name(const std::string& job_number);

/// Files the document's revision in the record of its job below `records`, as write_record() does. What is there already, made from the
/// very same inputs, is given as it is: whoever got no answer may ask again, and of several at once each gets the one revision.
/// @throws input::InputRejected where the document has no job number, or the record holds another such revision; files::OutputFailed
Filed file_record(const produce::Drawing& drawing, const std::filesystem::path& records);

}  // namespace wayfolio::archive
