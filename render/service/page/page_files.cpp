#include "service/page/page_files.hpp"

namespace wayfolio::service {

std::optional<PageFile> page_file(std::string_view path) {
    const PageFile files[] = {{"/", "text/html; charset=utf-8", page_html()},
                              {"/page.css", "text/css; charset=utf-8", page_css()},
                              {"/page.js", "text/javascript; charset=utf-8", page_js()},
                              {"/archive.js", "text/javascript; charset=utf-8", archive_js()},
                              {"/ask.js", "text/javascript; charset=utf-8", ask_js()},
                              {"/compare.js", "text/javascript; charset=utf-8", compare_js()},
                              {"/dom.js", "text/javascript; charset=utf-8", dom_js()},
                              {"/faults.js", "text/javascript; charset=utf-8", faults_js()},
                              {"/figures.js", "text/javascript; charset=utf-8", figures_js()},
                              {"/json_text.js", "text/javascript; charset=utf-8", json_text_js()},
                              {"/kept.js", "text/javascript; charset=utf-8", kept_js()},
                              {"/pages.js", "text/javascript; charset=utf-8", pages_js()},
                              {"/preview.js", "text/javascript; charset=utf-8", preview_js()},
                              {"/printed.js", "text/javascript; charset=utf-8", printed_js()},
                              {"/record.js", "text/javascript; charset=utf-8", record_js()},
                              {"/readings.js", "text/javascript; charset=utf-8", readings_js()}};
    for (const PageFile& file : files)
        if (file.path == path) return file;
    return std::nullopt;
}

}  // namespace wayfolio::service
