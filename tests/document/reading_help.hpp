#pragma once
#include "input/problem.hpp"
#include "document/read_document.hpp"

#include <map>
#include <string>
#include <vector>

namespace wayfolio::document {

using SideFiles = std::map<std::string, std::string>;

/// Reads a document from text, with its side files by name.
inline Document read_text(std::string text, const SideFiles& files = {}) {
    return read_document(std::move(text), "job.json", [files](const std::string& name) {
        const auto found = files.find(name);
        if (found == files.end()) throw input::InputMissing(name, "is not there");
        return found->second;
    });
}

/// A document of one series: the members given, with the rest of the head.
inline std::string one_series(const std::string& members) {
    return R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "x", )" + members + "}]}";
}

/// The faults of a text that must be refused, as lines.
inline std::vector<std::string> faults_of(const std::string& text, const SideFiles& files = {}) {
    std::vector<std::string> lines;
    try {
        (void)read_text(text, files);
    } catch (const input::InputRejected& rejected) {
        for (const auto& problem : rejected.problems()) lines.push_back(to_text(problem));
    }
    return lines;
}

}  // namespace wayfolio::document
