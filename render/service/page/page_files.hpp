#pragma once
#include <optional>
#include <string_view>

namespace wayfolio::service {

// The files of the page, as they were when the program was built.
std::string_view page_html();
std::string_view page_css();
std::string_view page_js();
std::string_view archive_js();
std::string_view ask_js();
std::string_view compare_js();
std::string_view dom_js();
std::string_view faults_js();
std::string_view figures_js();
std::string_view json_text_js();
std::string_view kept_js();
std::string_view pages_js();
std::string_view preview_js();
std::string_view printed_js();
std::string_view readings_js();
std::string_view record_js();

struct PageFile {
    std::string_view path, content_type, text;
};

/// The file at a path of the page. Whoever reaches the service may have them: nothing in them is anybody's.
std::optional<PageFile> page_file(std::string_view path);

}  // namespace wayfolio::service
