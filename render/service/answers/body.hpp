#pragma once
#include "service/message.hpp"

#include <map>
#include <string>

/// The body of a request as the files that travel in it.
namespace wayfolio::service {

/// What came with a request: its parts by name, and the files that a document asks for beside it.
struct Files {
    std::map<std::string, std::string> parts;       ///< "document", "layout" ...: their bytes
    std::map<std::string, std::string> side_files;  ///< parts called "file", by file name
    std::map<std::string, std::string> facts;       ///< parts called "facts", by file name
};

/// A body of `whole_type` is the part `whole_part` alone ("": no body is); a multipart/form-data body (RFC 7578) holds parts by their
/// names.
/// @throws Refused for another content type, a body that is not as RFC 2046 has it, a part twice, or more than `most_parts`
Files files_of(const Request& request, const std::string& whole_type, const std::string& whole_part, std::size_t most_parts);

}  // namespace wayfolio::service
