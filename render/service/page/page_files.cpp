#include "service/page/page_files.hpp"

namespace wayfolio::service {
namespace {

std::string_view content_type(std::string_view path) {
    if (path.ends_with(".js")) return "text/javascript; charset=utf-8";
    return path.ends_with(".css") ? "text/css; charset=utf-8" : "text/html; charset=utf-8";
}

}  // namespace

std::optional<PageFile> page_file(std::string_view path) {
    if (path == "/") path = "/page.html";
#define PAGE_FILE(place, function) \
    if (path == place) return PageFile{path, content_type(path), function()};
#include "files_of_page.inc"
#undef PAGE_FILE
    return std::nullopt;
}

}  // namespace wayfolio::service
