#include "report/model/model.hpp"

namespace wayfolio::report {

namespace {

FactTable facts_of(const RunningText& running) {
    FactTable facts;
    if (!running.first_line.empty()) facts.facts.push_back({"First line", {Text(running.first_line)}});
    facts.facts.push_back({"Head of each page", {Text(running.head_left)}});
    if (running.issuer) {
        Fact head{"Head of the first page", {Text(running.issuer->name)}};
        for (const std::string& line : running.issuer->lines) head.lines.emplace_back(line);
        facts.facts.push_back(std::move(head));
    }
    if (!running.foot_right.empty()) facts.facts.push_back({"Foot of each page", {Text(running.foot_right)}});
    return facts;
}

}  // namespace

std::vector<Text> lines_in_full(const RunningText& running) {
    std::vector<Text> lines;
    for (const Fact& fact : facts_of(running).facts) {
        Text line(fact.name + ":");
        for (const Text& one : fact.lines) line.plain(&one == &fact.lines.front() ? " " : ", ").append(one);
        lines.push_back(std::move(line));
    }
    return lines;
}

Sections in_full(const RunningText& running) {
    return {.opening = {.label = "Head and foot in full", .anchor = "running-text"},
            .sections = {{.heading = "What stands shortened on the pages", .parts = {facts_of(running)}}}};
}

}  // namespace wayfolio::report
