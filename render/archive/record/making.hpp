#pragma once
#include "document/read_document.hpp"
#include "input/problem.hpp"
#include "produce/inputs.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

/// What a PDF or a record carries of its own making, and the drawing again from it.
namespace wayfolio::archive {

/// Files by name, byte for byte.
using Files = std::map<std::string, std::string, std::less<>>;

/// Files that are copied without being held.
using LargeFiles = std::map<std::string, input::ByteSource, std::less<>>;

/// A file that the list of inputs names, with the SHA-256 that it had.
struct ListedFile {
    std::string file, sha256;
    bool apart = false;  ///< too large to travel inside a PDF
};

/// Opens files that are listed as apart; empty where none can be had. It throws input::InputMissing.
using Apart = document::SideFileReader::Source;

/// What something was drawn from, as its list of inputs says, with the files themselves.
struct Making {
    std::string file;         ///< the PDF or the folder, for messages
    std::string list;         ///< bytes of the list
    std::string fingerprint;  ///< SHA-256 of `list`
    produce::Product product;
    std::string paper;
    ListedFile document;
    std::vector<ListedFile> side_files, layouts, fonts;
    LibraryVersions versions;
    Files files;
    Apart apart;
};

/// The PDF of a comparison or a history: it holds no single result that could be drawn again or verified.
class NotOneResult : public input::InputRejected {
public:
    using InputRejected::InputRejected;
};

/// Reads the list of inputs among `files` and keeps the files beside it. Digests are not looked at: see verify.hpp.
/// @throws input::InputRejected when the list is missing or not one; NotOneResult for a comparison or a history
Making read_making(Files files, const std::string& file, Apart apart = {});

/// The files that a PDF carries.
/// @param name of the PDF, for messages
/// @throws input::InputRejected when the bytes are no PDF, or a carried file cannot be read or is larger than an input may be
Files carried_files(const std::string& pdf, const std::string& name);

/// What lies apart from a PDF, in its folder; or of a record, among its inputs.
Apart beside(const std::filesystem::path& folder);

/// What was kept in a PDF, in a record (its newest revision) or in one revision of it, as it lies there; see archive/verify/unchanged.hpp.
/// @throws input::InputMissing, input::InputRejected
Making kept_from(const std::filesystem::path& path);

/// The bytes of a file that the list names. @throws input::InputRejected when it is not there
const std::string& bytes_of(const Making& making, const std::string& name);

/// What a drawing needs, owned; read again from what was kept.
struct Remade {
    document::Document document;
    evaluate::Evaluation evaluation;
    layouts::Layout layout;
};

/// Reads and evaluates the kept document.
/// @param layout in place of the kept one, on its own paper
/// @param paper of the kept layout, in place of the kept one; empty keeps it
/// @throws input::InputRejected for what is missing or faulty
Remade remake(const Making& making, std::optional<layouts::Layout> layout = std::nullopt, const std::string& paper = {});

/// The PDF of the product that `making` names. @throws as produce::report_pdf; input::InputRejected where the data have no such figure
std::string draw_pdf(const produce::Drawing& drawing, const Making& making);

}  // namespace wayfolio::archive
