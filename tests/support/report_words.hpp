#pragma once
#include "report/model.hpp"

#include <string>

/// What a report says, as plain text for tests.
namespace wayfolio::support {

/// Cells of a row end in "|", rows and items in a line end.
inline std::string words_of(const report::SectionPart& part) {
    std::string words;
    const auto row = [&](const auto& cells, auto text) {
        for (const auto& cell : cells) words += text(cell) + "|";
        words += "\n";
    };
    if (const auto* paragraph = std::get_if<report::Paragraph>(&part)) words += paragraph->text.words() + "\n";
    if (const auto* list = std::get_if<report::BulletList>(&part))
        for (const auto& item : list->items) words += item.words() + "\n";
    if (const auto* facts = std::get_if<report::FactTable>(&part))
        for (const auto& fact : facts->facts)
            for (const auto& line : fact.lines) words += fact.name + ": " + line.words() + "\n";
    if (const auto* table = std::get_if<report::PlainTable>(&part)) {
        row(table->heads, [](const std::string& head) { return head; });
        for (const auto& cells : table->rows) row(cells, [](const report::Text& cell) { return cell.words(); });
    }
    return words;
}

inline std::string words_of(const std::vector<report::Section>& sections) {
    std::string words;
    for (const auto& section : sections) {
        words += section.heading + "\n";
        for (const auto& part : section.parts) words += words_of(part);
    }
    return words;
}

inline bool says(const std::string& words, const std::string& wanted) { return words.find(wanted) != std::string::npos; }

}  // namespace wayfolio::support
