#include "service/answers/body.hpp"

#include "input/json/json.hpp"
#include "input/read_file.hpp"
#include "service/answers/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>

namespace wayfolio::service {
namespace {

constexpr std::size_t longest_boundary = 70;  // RFC 2046, 5.1.1

[[noreturn]] void refuse(const std::string& what) { throw Refused(problems::malformed, what); }

std::string lower(std::string_view text) {
    std::string all(text);
    std::ranges::transform(all, all.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return all;
}

std::string_view trimmed(std::string_view text) {
    const auto blank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && blank(text.back())) text.remove_suffix(1);
    return text;
}

/// A value of a header with its parameters (RFC 9110, 5.6.6): `form-data; name="document"; filename="a.json"`.
struct Parameters {
    std::string value;
    std::map<std::string, std::string> named;
};

/// Takes a parameter's value off the front: a token, or a quoted string with its escapes.
std::string take_value(std::string_view& text) {
    std::string value;
    if (!text.starts_with('"')) {
        const std::size_t end = std::min(text.find(';'), text.size());
        value = trimmed(text.substr(0, end));
        text.remove_prefix(end);
        return value;
    }
    std::size_t at = 1;
    for (; at < text.size() && text[at] != '"'; ++at) {
        if (text[at] == '\\' && at + 1 < text.size()) ++at;
        value += text[at];
    }
    if (at >= text.size()) refuse("a quoted value of a header does not end");
    text.remove_prefix(at + 1);
    return value;
}

Parameters parameters_of(std::string_view text) {
    const std::size_t first = std::min(text.find(';'), text.size());
    Parameters read{lower(trimmed(text.substr(0, first))), {}};
    text.remove_prefix(first);
    while (!text.empty()) {
        text = trimmed(text.substr(1));
        if (text.empty()) break;
        const std::size_t equals = text.find('=');
        if (equals == std::string_view::npos) refuse("a parameter of a header has no value");
        const std::string name = lower(trimmed(text.substr(0, equals)));
        text = trimmed(text.substr(equals + 1));
        if (!read.named.emplace(name, take_value(text)).second) refuse(fmt::format("the parameter {} of a header stands twice", name));
        text = trimmed(text);
        if (!text.empty() && text.front() != ';') refuse("something stands behind the value of a parameter of a header");
    }
    return read;
}

/// The disposition of a part: the only header of it that says anything here.
Parameters disposition_of(std::string_view head) {
    while (!head.empty()) {
        const std::size_t end = head.find("\r\n");
        const std::string_view line = head.substr(0, end);
        const std::size_t colon = line.find(':');
        if (colon == std::string_view::npos) refuse("a line in the head of a part has no colon");
        if (lower(line.substr(0, colon)) == "content-disposition") return parameters_of(line.substr(colon + 1));
        head.remove_prefix(end == std::string_view::npos ? head.size() : end + 2);
    }
    refuse("a part has no Content-Disposition");
}

void take_part(std::string_view part, Files& files) {
    const std::size_t end = part.find("\r\n\r\n");
    if (end == std::string_view::npos) refuse("the head of a part does not end");
    const Parameters disposition = disposition_of(part.substr(0, end));
    const auto name = disposition.named.find("name");
    if (disposition.value != "form-data" || name == disposition.named.end()) refuse("a part is no form-data with a name");
    const std::string bytes(part.substr(end + 4));
    const bool is_fact = name->second == "facts";
    if (name->second != "file" && !is_fact) {
        if (!files.parts.emplace(name->second, bytes).second) refuse(fmt::format("the part {} stands twice", input::quoted(name->second)));
        return;
    }
    const auto file = disposition.named.find("filename");
    if (file == disposition.named.end() || !input::is_plain_file_name(file->second))
        refuse(fmt::format("a part called {} needs a filename, without folders", input::quoted(name->second)));
    if (!(is_fact ? files.facts : files.side_files).emplace(file->second, bytes).second)
        refuse(fmt::format("the file {} stands twice", input::quoted(file->second)));
}

Files parts_of(std::string_view body, const std::string& boundary, std::size_t most_parts) {
    const std::string delimiter = "\r\n--" + boundary;
    // The first delimiter may stand at the very beginning, without a line before it.
    const std::string whole = "\r\n" + std::string(body);
    std::size_t at = whole.find(delimiter);
    if (at == std::string::npos) refuse("the body has no boundary");
    Files files;
    for (std::size_t count = 0;; ++count) {
        at += delimiter.size();
        if (whole.compare(at, 2, "--") == 0) return files;
        if (count == most_parts) refuse(fmt::format("more than {} parts", most_parts));
        const std::size_t line = whole.find("\r\n", at), next = whole.find(delimiter, at);
        if (next == std::string::npos || line > next) refuse("the last part does not end with the boundary and two hyphens");
        take_part(std::string_view(whole).substr(line + 2, next - std::min(next, line + 2)), files);
        at = next;
    }
}

}  // namespace

Files files_of(const Request& request, const std::string& whole_type, const std::string& whole_part, std::size_t most_parts) {
    const Parameters type = parameters_of(request.content_type);
    if (!whole_type.empty() && type.value == whole_type) return {{{whole_part, request.body}}, {}};
    if (type.value != "multipart/form-data")
        throw Refused(problems::wrong_type,
                      fmt::format("found {}; expected {}{}multipart/form-data", type.value.empty() ? "none" : input::quoted(type.value),
                                  whole_type, whole_type.empty() ? "" : " or "));
    const auto boundary = type.named.find("boundary");
    if (boundary == type.named.end() || boundary->second.empty() || boundary->second.size() > longest_boundary)
        refuse("multipart/form-data needs a boundary of at most 70 characters");
    return parts_of(request.body, boundary->second, most_parts);
}

}  // namespace wayfolio::service
