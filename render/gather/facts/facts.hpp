#pragma once
#include "document/read_document.hpp"

#include <string>
#include <vector>

namespace wayfolio::gather {

/// A file of facts: what is the same from job to job (document::read_facts() reads one).
struct FactsFile {
    std::string name;  ///< without its folder: the document names it so
    std::string path;  ///< for messages
    std::string bytes;
    document::SideFileReader read_side_file;  ///< gives what lies beside it: a logo
};

/// A file on disk. @throws input::InputMissing
FactsFile facts_file(const std::string& path);

/// What became of one file of facts.
struct FactsAccount {
    std::string file, sha256;
    std::size_t taken = 0;     ///< values that went into the document
    std::size_t there = 0;     ///< values that it had already
    std::size_t left_out = 0;  ///< contributors and limits of errors or machines that it does not have
};

/// What kept facts say and a document does not, or says otherwise; each in one line. Empty where merging them again changes nothing.
/// @param document its bytes, sound
std::vector<std::string> facts_that_differ(const std::string& document, const std::vector<FactsFile>& files);

}  // namespace wayfolio::gather
