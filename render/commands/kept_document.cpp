#include "commands/inputs.hpp"

#include "archive/verify/unchanged.hpp"
#include "input/read_file.hpp"
#include "document/read_document.hpp"

#include <filesystem>

namespace wayfolio::commands {

namespace {

bool is_pdf(const std::string& path) {
    std::error_code none;
    return std::filesystem::is_regular_file(path, none) && input::read_file(path).starts_with("%PDF");
}

}  // namespace

document::Document document_of(const std::string& path) {
    std::error_code none;
    if (!std::filesystem::is_directory(path, none) && !is_pdf(path)) return document::read_document(std::filesystem::path(path));
    document::Document document = archive::remake(archive::unchanged_from(path)).document;
    document.file = path;
    return document;
}

}  // namespace wayfolio::commands
