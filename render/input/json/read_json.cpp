#include "input/json/json.hpp"

#include "input/json/json_parser.hpp"
#include "input/read_file.hpp"
#include "input/encoding.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::input {
namespace {

[[noreturn]] void reject(const std::string& file, Place place, std::string found, std::string expected, std::string hint) {
    throw InputRejected({{file, std::move(place), std::move(found), std::move(expected), std::move(hint)}});
}

Place place_of_byte(std::string_view bytes, std::size_t offset) {
    const std::string_view before = bytes.substr(0, offset);
    const auto line_end = before.rfind('\n');
    const std::size_t line_start = line_end == std::string_view::npos ? 0 : line_end + 1;
    return {static_cast<std::size_t>(std::ranges::count(before, '\n')) + 1, offset - line_start + 1, {}};
}

}  // namespace

Json read_json(std::string_view bytes, const std::string& file) {
    if (bytes.size() > largest_file)
        reject(file, {}, fmt::format("more than {} bytes", largest_file), fmt::format("at most {} bytes", largest_file),
               "put long traces into separate files");
    if (looks_like_utf16(bytes)) reject(file, {1, 1, {}}, "UTF-16", "UTF-8", "save the file as UTF-8");
    if (bytes.starts_with(utf8_byte_order_mark)) bytes.remove_prefix(utf8_byte_order_mark.size());
    if (const std::size_t offset = first_invalid_utf8(bytes); offset != std::string_view::npos)
        reject(file, place_of_byte(bytes, offset),
               fmt::format("the byte 0x{:02X}, which is not UTF-8 here", static_cast<unsigned char>(bytes[offset])), "UTF-8",
               "save the file as UTF-8");
    if (std::ranges::all_of(bytes, [](char letter) { return letter == ' ' || letter == '\n' || letter == '\r' || letter == '\t'; }))
        reject(file, {1, 1, {}}, "an empty file", "a JSON object", "");
    return JsonParser(bytes, file).parse();
}

}  // namespace wayfolio::input
