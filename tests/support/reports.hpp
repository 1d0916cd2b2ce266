#pragma once
#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

#include <string>
#include <variant>
#include <vector>

/// Looking into what a report says, from tests.
namespace wayfolio::support {

/// A document with all that a report is built from.
struct Reported {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    layouts::Layout layout = layouts::read_layout("report", "A4");

    [[nodiscard]] report::Subject subject() const { return {document, evaluation, layout}; }
};

inline void add_words(std::string& words, const report::Paragraph& part) { words += part.text.words() + "\n"; }
inline void add_words(std::string& words, const report::BulletList& part) {
    for (const auto& item : part.items) words += item.words() + "\n";
}
inline void add_words(std::string& words, const report::FactTable& part) {
    for (const auto& fact : part.facts)
        for (const auto& line : fact.lines) words += fact.name + ": " + line.words() + "\n";
}
inline void add_words(std::string& words, const report::PlainTable& part) {
    for (const auto& column : part.columns) words += column.head + "|";
    words += "\n";
    for (const auto& row : part.rows) {
        for (const auto& cell : row) words += cell.words() + "|";
        words += "\n";
    }
}

/// Headings, sentences and tables of sections; the cells of a row end in "|".
inline std::string words_of(const std::vector<report::Section>& sections) {
    std::string words;
    for (const auto& section : sections) {
        words += section.heading + "\n";
        for (const auto& part : section.parts) std::visit([&](const auto& one) { add_words(words, one); }, part);
    }
    return words;
}

inline std::vector<std::string> heads_of(const report::PlainTable& table) {
    std::vector<std::string> heads;
    for (const auto& column : table.columns) heads.push_back(column.head);
    return heads;
}

inline bool says(const std::string& words, const std::string& wanted) { return words.find(wanted) != std::string::npos; }

}  // namespace wayfolio::support
