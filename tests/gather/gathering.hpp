#pragma once
#include "gather/draft/node.hpp"
#include "gather/gather.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

/// Gathers small exports in tests.
namespace wayfolio::gather::testing {

using Files = std::vector<std::pair<std::string, std::string>>;  ///< name, bytes

/// A mapping of one series x of EXX in um at mm, and one export x*, with more members of each.
inline std::string mapping_of(const std::string& entry, const std::string& series = "") {
    return R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", )"
           R"("sign": "actual-minus-target")" +
           (series.empty() ? "" : ", " + series) + R"(}], "exports": [{"file": "x*", )" + entry + "}]}";
}

/// Members of an export with one row a reading.
inline const std::string rows =
    R"("position": {"column": "Target"}, "approach": {"column": "Dir", "positive": ["+"], "negative": ["-"]}, "run": {"column": "Run"},
       "values": [{"series": "x", "column": "Dev"}])";

inline std::vector<ExportFile> exports_of(const Files& files) {
    std::vector<ExportFile> exports;
    for (const auto& [name, bytes] : files) exports.push_back(export_of_bytes(name, bytes));
    return exports;
}

/// A mapping with its open places filled in: each answer at the first place that asks its question.
inline std::string filled(std::string mapping, const std::vector<std::pair<std::string, std::string>>& answers) {
    for (const auto& [question, answer] : answers) {
        const std::size_t at = mapping.find(question);
        REQUIRE(at != std::string::npos);
        mapping.replace(at, question.size(), answer);
    }
    return mapping;
}

inline Gathered gathered(const std::string& mapping, const Files& files) {
    return gather({.mapping = mapping, .mapping_file = "m.json", .exports = exports_of(files)});
}

/// "0 250 500 | + 0.1 1.4 _ (1: beam) @2026-05-11T08:10 | - ...": targets, then the runs of a series, numbers as they are written.
inline std::string series_words(const Node& series) {
    const auto numbers = [](const Node& list) {
        std::string text;
        for (const Node& item : list.items) text += (text.empty() ? "" : " ") + (item.text.empty() ? "_" : item.text);
        return text;
    };
    std::string text = series.member("targets") == nullptr ? "" : numbers(*series.member("targets"));
    if (series.member("runs") == nullptr) return text;
    for (const Node& run : series.member("runs")->items) {
        text += std::string(" | ") + (run.string("approach") == "positive" ? "+" : "-") + " " + numbers(*run.member("deviations"));
        if (const Node* excluded = run.member("excluded"))
            for (const Node& one : excluded->items) text += fmt::format(" ({}: {})", one.member("target")->text, one.string("reason"));
        if (run.member("started") != nullptr) text += fmt::format(" @{}", run.string("started"));
        if (run.member("ended") != nullptr) text += fmt::format("..{}", run.string("ended"));
    }
    return text;
}

inline Node document_of(const Gathered& gathered) { return node_of(input::read_json(gathered.document, "d.json").root); }

/// All series of what is gathered, one a line; or the faults, one a line.
inline std::string words_of(const std::string& mapping, const Files& files) {
    try {
        std::string text;
        const Node document = document_of(gathered(mapping, files));
        for (const Node& series : document.member("series")->items) text += (text.empty() ? "" : "\n") + series_words(series);
        return text;
    } catch (const input::InputRejected& rejected) {
        std::string text;
        for (const auto& problem : rejected.problems()) text += (text.empty() ? "" : "\n") + input::to_text(problem);
        return text;
    }
}

}  // namespace wayfolio::gather::testing
