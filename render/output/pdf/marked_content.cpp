#include "output/pdf/marked_content.hpp"

#include <fmt/format.h>

#include <map>
#include <stdexcept>

namespace wayfolio::output {

namespace {

constexpr std::string_view before_number = " << /MCID ", after_number = " >> BDC\n";

[[noreturn]] void disagree(const std::string& what) {
    throw std::logic_error("a page does not hold the marked content that was drawn: " + what);
}

}  // namespace

std::vector<std::optional<int>> marked_content_numbers(const std::vector<TagRecord>& records) {
    std::map<std::size_t, int> next;
    std::vector<std::optional<int>> numbers;
    for (const TagRecord& record : records) numbers.push_back(record.marked ? std::optional(next[record.page]++) : std::nullopt);
    return numbers;
}

// Cairo spells marked content in one fixed way, each operator on a line of its own, and numbers it from 0 on each page.
std::string with_types_named(std::string_view content, const std::vector<std::string>& types) {
    std::string named;
    named.reserve(content.size());
    std::size_t at = 0, number = 0;
    for (std::size_t found; (found = content.find(before_number, at)) != std::string_view::npos; ++number) {
        if (number == types.size()) disagree("more than was drawn");
        const std::string& type = types[number];
        const std::size_t line = content.rfind('\n', found) + 1;
        const std::string rest = fmt::format("{}{}{}", before_number, number, after_number), expected = "/" + marking_of(type) + rest;
        if (content.substr(line, expected.size()) != expected) disagree(fmt::format("tag {} is not {}", number, type));
        named.append(content, at, line - at);
        named += type == artifact_tag ? "/Artifact BMC\n" : "/" + type + rest;
        at = line + expected.size();
    }
    if (number != types.size()) disagree("less than was drawn");
    return named.append(content, at);
}

}  // namespace wayfolio::output
