#include "evaluate/review/before_leaving.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {

std::vector<BeforeLeaving> before_leaving(const document::Document& document, const Evaluation& evaluation) {
    std::vector<BeforeLeaving> lines;
    add_reading_concerns(lines, document, evaluation);
    add_setup_concerns(lines, document, evaluation);
    add_paper_concerns(lines, document, evaluation);
    return lines;
}

std::string last_line(const std::vector<BeforeLeaving>& lines) {
    const auto count = [&](Concern concern) {
        return std::count_if(lines.begin(), lines.end(), [&](const auto& line) { return line.concern == concern; });
    };
    std::vector<std::string> machine, desk;
    const auto add = [](std::vector<std::string>& list, std::ptrdiff_t n, const char* one, const char* many) {
        if (n > 0) list.push_back(fmt::format("{} {}", n, n == 1 ? one : many));
    };
    add(machine, count(Concern::Readings), "finding in the readings", "findings in the readings");
    add(machine, count(Concern::Setup), "finding in the set-up and surroundings", "findings in the set-up and surroundings");
    add(machine, count(Concern::Conditions), "condition of the standard not met", "conditions of the standard not met");
    add(desk, count(Concern::Papers), "gap in the document", "gaps in the document");
    const auto joined = [](const std::vector<std::string>& list) {
        std::string text;
        for (std::size_t i = 0; i < list.size(); ++i) text += (i == 0 ? "" : ", ") + list[i];
        return text;
    };
    if (machine.empty() && desk.empty()) return "Nothing stands in the way of packing up.";
    if (machine.empty()) return fmt::format("Nothing at the machine stands in the way; at the desk remain: {}.", joined(desk));
    return fmt::format("Before packing up, look at: {}{}.", joined(machine),
                       desk.empty() ? "" : "; at the desk remain: " + joined(desk));
}

}  // namespace wayfolio::evaluate
