#include "output/marked_content.hpp"

#include "output/tag_names.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace wayfolio::output {

namespace {

constexpr std::string_view before_number = " << /MCID ", after_number = " >> BDC\n";

[[noreturn]] void disagree(std::size_t page, const std::string& what) {
    throw std::logic_error(fmt::format("page {} does not hold the marked content that was drawn: {}", page + 1, what));
}

/// Cairo spells marked content in one fixed way, each operator on a line of its own, and numbers it from 0 on each page.
std::string with_artifacts_named(std::string_view content, const std::vector<const TagRecord*>& leaves, std::size_t page) {
    std::string named;
    named.reserve(content.size());
    std::size_t at = 0, number = 0;
    for (std::size_t found; (found = content.find(before_number, at)) != std::string_view::npos; ++number) {
        if (number == leaves.size()) disagree(page, "more than was drawn");
        const std::string& type = leaves[number]->type;
        const std::size_t line = content.rfind('\n', found) + 1;
        const std::string expected = fmt::format("/{}{}{}{}", type, before_number, number, after_number);
        if (content.substr(line, expected.size()) != expected) disagree(page, fmt::format("tag {} is not {}", number, type));
        named.append(content, at, line - at);
        named += type == artifact_tag ? "/Artifact BMC\n" : expected;
        at = line + expected.size();
    }
    if (number != leaves.size()) disagree(page, "less than was drawn");
    return named.append(content, at);
}

}  // namespace

std::vector<std::optional<int>> number_marked_content(QPDF& file, const std::vector<TagRecord>& records) {
    const std::vector<Handle>& pages = file.getAllPages();
    std::vector<std::optional<int>> numbers(records.size());
    std::vector<std::vector<const TagRecord*>> leaves(pages.size());
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (!records[i].leaf) continue;
        auto& of_page = leaves.at(records[i].page);
        numbers[i] = static_cast<int>(of_page.size());
        of_page.push_back(&records[i]);
    }
    for (std::size_t page = 0; page < pages.size(); ++page) {
        Handle contents = Handle(pages[page]).getKey("/Contents");
        const std::shared_ptr<Buffer> data = contents.getStreamData();
        const std::string_view content(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
        contents.replaceStreamData(with_artifacts_named(content, leaves[page], page), Handle::newNull(), Handle::newNull());
    }
    return numbers;
}

}  // namespace wayfolio::output
