#include "catalogue/history_words.hpp"

#include "report/words/names.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <utility>

namespace wayfolio::catalogue {
namespace {

enum class Course { Grew, Fell, Changed, NoSlope };

/// What has a sign may grow in size while it falls: of that only is said that it changed.
std::optional<Course> course_of(const HistoryLine& line) {
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift) return std::nullopt;
    if (!drift->significant) return Course::NoSlope;
    if (has_sign(line)) return Course::Changed;
    return drift->fit.slope > 0 ? Course::Grew : Course::Fell;
}

bool is_symbol(const HistoryLine& line) {
    const bool alone = line.series.empty() && line.reference_line.empty();
    return alone && report::parameter_symbol(line.parameter) == line.parameter;
}

void append_listed(report::Text& into, std::size_t i, std::size_t count) {
    into.plain(i == 0 ? "" : i + 1 == count ? " and " : ", ");
}

/// "A, E and M of EXX"; "roll EAX"
std::vector<report::Text> names_of(const std::vector<const HistoryLine*>& lines) {
    std::vector<report::Text> names;
    std::set<std::string> named;
    for (const HistoryLine* line : lines) {
        if (!is_symbol(*line)) {
            std::string name = report::uncapitalised(line_name(*line));
            std::erase(name, ',');
            names.emplace_back(std::move(name));
            continue;
        }
        if (!named.insert(line->error).second) continue;
        std::vector<std::string> symbols;
        for (const HistoryLine* other : lines)
            if (is_symbol(*other) && other->error == line->error) symbols.push_back(other->parameter);
        report::Text name;
        for (std::size_t i = 0; i < symbols.size(); ++i) {
            append_listed(name, i, symbols.size());
            name.symbol(symbols[i]);
        }
        names.push_back(name.plain(" of " + line->error));
    }
    return names;
}

report::Text course_words(Course course, bool one) {
    switch (course) {
        case Course::Grew: return report::Text(" grew");
        case Course::Fell: return report::Text(" fell");
        case Course::Changed: return report::Text(" changed");
        case Course::NoSlope:
            return report::Text(one ? " shows no slope beyond its\u00a0" : " show no slope beyond their\u00a0").symbol("U");
    }
    return {};
}

/// The months that all speak of; where they differ, each panel names its own.
std::string over_what(const std::vector<const HistoryLine*>& speaking) {
    const auto months = [](const HistoryLine* line) {
        const Drift& drift = *evaluate::value_of(line->drift);
        return std::pair(drift.from.substr(0, 7), drift.to.substr(0, 7));
    };
    const auto first = months(speaking.front());
    if (std::ranges::all_of(speaking, [&](const HistoryLine* line) { return months(line) == first; }))
        return " from " + first.first + " to " + first.second;
    return ", each over the visits that its panel names";
}

}  // namespace

report::Text lead_of(const std::vector<const HistoryLine*>& drawn) {
    constexpr std::size_t most_named = 6;
    constexpr std::array courses{Course::Grew, Course::Fell, Course::Changed, Course::NoSlope};
    std::vector<const HistoryLine*> speaking;
    for (const HistoryLine* line : drawn)
        if (course_of(*line)) speaking.push_back(line);
    if (speaking.empty()) return {};
    report::Text lead;
    for (const Course course : courses) {
        std::vector<const HistoryLine*> lines;
        for (const HistoryLine* line : speaking)
            if (course_of(*line) == course) lines.push_back(line);
        if (lines.empty()) continue;
        lead.plain(lead.empty() ? "" : "; ");
        std::vector<report::Text> names = names_of(lines);
        if (speaking.size() > most_named)
            names = {report::Text(report::count_word(lines.size()) + (lines.size() == 1 ? " value" : " values"))};
        for (std::size_t i = 0; i < names.size(); ++i) {
            const bool begins_with_word = lead.empty() && names[i].spans().front().emphasis == report::Emphasis::Plain;
            append_listed(lead, i, names.size());
            if (begins_with_word) lead.plain(report::capitalised(names[i].words()));
            else lead.append(names[i]);
        }
        lead.append(course_words(course, lines.size() == 1));
    }
    return lead.plain(over_what(speaking) + ".");
}

}  // namespace wayfolio::catalogue
