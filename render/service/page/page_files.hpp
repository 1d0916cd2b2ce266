#pragma once
#include <optional>
#include <string_view>

namespace wayfolio::service {

// The files of the page, as they were when the program was built; their list is in this room's CMake file.
#define PAGE_FILE(path, function) std::string_view function();
#include "files_of_page.inc"
#undef PAGE_FILE

struct PageFile {
    std::string_view path, content_type, text;
};

/// The file at a path of the page; "/" is the page itself. Whoever reaches the service may have them: nothing in them is anybody's.
std::optional<PageFile> page_file(std::string_view path);

}  // namespace wayfolio::service
