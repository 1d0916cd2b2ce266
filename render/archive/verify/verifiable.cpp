#include "archive/verify/checks.hpp"

#include "archive/record/record.hpp"
#include "archive/verify/verify.hpp"
#include "input/read_file.hpp"
#include "unpack/open_file.hpp"

namespace wayfolio::archive {
namespace {

[[noreturn]] void refuse_to_verify(const std::string& name, std::string found, std::string hint = {}) {
    throw NothingToVerify({{name, {}, std::move(found), "a PDF that this program made, or the folder of a record", std::move(hint)}});
}

/// A head or an end of a PDF: either may be what damage has left.
bool looks_like_pdf(const std::string& bytes) {
    constexpr std::size_t nearby = 1024;  // where readers look for either (ISO 32000-1, Annex H.3, notes 13 and 18 [from memory])
    if (bytes.substr(0, nearby).find("%PDF-") != std::string::npos) return true;
    return bytes.substr(bytes.size() - std::min(nearby, bytes.size())).find("%%EOF") != std::string::npos;
}

bool names_this_program(QPDF& file) {
    unpack::Handle info = file.getTrailer().getKey("/Info");
    if (info.isDictionary() && info.getKey("/Creator").isString() && info.getKey("/Creator").getUTF8Value().starts_with("wayfolio "))
        return true;
    return unpack::packet_of(file).find("wayfolio") != std::string::npos;
}

/// Whether it can be read without a warning, and neither carries nor names anything of this program.
bool of_another_program(const std::string& bytes, const std::string& name) {
    try {
        QPDF file;
        unpack::open_file(file, name, bytes);
        QPDFEmbeddedFileDocumentHelper embedded(file);
        return !embedded.getEmbeddedFile(std::string(produce::kept::inputs)) && !names_this_program(file) && !file.anyWarnings();
    } catch (const std::runtime_error&) {  // QPDFExc among them: damaged
        return false;
    }
}

}  // namespace

void require_verifiable(const std::string& bytes, const std::string& name) {
    if (bytes.empty()) refuse_to_verify(name, "an empty file");
    if (!looks_like_pdf(bytes)) {
        const std::size_t first = bytes.find_first_not_of(" \t\r\n");
        const bool json = first != std::string::npos && bytes[first] == '{';
        refuse_to_verify(name, json ? "JSON, no PDF" : "no PDF", json ? "\"wayfolio check\" looks at a result document" : "");
    }
    if (of_another_program(bytes, name)) refuse_to_verify(name, "a PDF that another program made");
}

void require_verifiable_folder(const std::filesystem::path& folder) {
    input::require_readable_folder(folder);
    std::error_code none;
    const bool of_a_record = is_bag(folder) || !revisions_in(folder).empty() || !unfinished_in(folder).empty();
    // An empty folder may be all that is left of a record.
    if (of_a_record || std::filesystem::is_empty(folder, none)) return;
    refuse_to_verify(folder.string(), "a folder without a finished revision", "name one record of the archive");
}

}  // namespace wayfolio::archive
