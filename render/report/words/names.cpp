#include "report/words/names.hpp"

#include "document/states.hpp"
#include "report/words/subject.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace wayfolio::report {
namespace {

using document::AngleName;
using document::ErrorKind;

std::string vertical_of(const document::Document& document) { return document.machine ? document.machine->vertical : std::string(); }

/// "vertical" or "horizontal" for a straightness direction, where the document says which axis is vertical.
std::string direction_words(const document::Document& document, const document::ErrorSymbol& error) {
    const std::string vertical = vertical_of(document);
    if (vertical.empty()) return "in " + std::string(1, error.direction);
    return vertical[0] == error.direction ? "vertical" : "horizontal";
}

std::string about(const document::ErrorSymbol& error) {
    // A turns about X, B about Y, C about Z (ISO 841).
    return "about " + std::string(1, static_cast<char>('X' + (error.direction - 'A')));
}

}  // namespace

std::string quantity_name(const document::Document& document, const document::ErrorSymbol& error) {
    switch (error.kind()) {
        case ErrorKind::Positioning: return "Positioning";
        case ErrorKind::Straightness: return "Straightness error of " + error.axis + " in " + std::string(1, error.direction);
        case ErrorKind::Angle: break;
    }
    switch (document::angle_name(error, vertical_of(document))) {
        case AngleName::Pitch: return "Pitch";
        case AngleName::Yaw: return "Yaw";
        case AngleName::Roll: return "Roll";
        case AngleName::Unknown: break;
    }
    return "Rotation " + about(error);
}

std::string quantity_in_a_sentence(const document::Document& document, const document::ErrorSymbol& error) {
    return uncapitalised(quantity_name(document, error));
}

std::string quantity_of_axis(const document::Document& document, const document::ErrorSymbol& error) {
    const std::string name = quantity_in_a_sentence(document, error);
    return error.kind() == ErrorKind::Straightness ? name : name + " of " + error.axis;
}

std::string quantity_detail(const document::Document& document, const document::ErrorSymbol& error, std::string_view parameter) {
    const std::string symbol = error.text() + ", ";
    switch (error.kind()) {
        case ErrorKind::Positioning: return symbol + parameter_symbol(parameter);
        case ErrorKind::Straightness: return symbol + direction_words(document, error);
        case ErrorKind::Angle: break;
    }
    return symbol + about(error);
}

std::string quantity_kind(const document::Document& document, const document::ErrorSymbol& error) {
    return error.kind() == ErrorKind::Straightness ? "Straightness error" : quantity_name(document, error);
}

std::string quantity_title(const document::Document& document, const document::ErrorSymbol& error) {
    return quantity_kind(document, error) + " " + error.text();
}

std::string series_name(const document::Series& series) { return document::name_of_series(series); }

std::string series_title(const document::Document& document, const document::Series& series) {
    return quantity_title(document, series.error) + state_suffix(series.state);
}

std::string state_words(std::string_view state) {
    return document::state_words(state);
}

std::string state_suffix(std::string_view state) { return state.empty() ? "" : ", " + state_words(state); }

std::string run_words(const document::Series& series, std::size_t run) {
    const document::Approach approach = series.runs[run].approach;
    std::size_t number = 0;
    for (std::size_t i = 0; i <= run; ++i) number += series.runs[i].approach == approach;
    return "run " + std::to_string(number) + " " + std::string(word(approach));
}

std::string count_word(std::size_t count) {
    static constexpr std::array<std::string_view, 13> words{"no",  "one",   "two",   "three", "four",   "five",  "six",
                                                            "seven", "eight", "nine", "ten",   "eleven", "twelve"};
    return count < words.size() ? std::string(words[count]) : std::to_string(count);
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string uncapitalised(std::string text) {
    if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
    return text;
}

void add_once(std::vector<std::string>& items, const std::string& item) {
    if (std::ranges::find(items, item) == items.end()) items.push_back(item);
}

std::string listed(const std::vector<std::string>& items) {
    std::string all;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) all += i + 1 == items.size() ? " and " : ", ";
        all += items[i];
    }
    return all;
}

std::string parameter_symbol(std::string_view parameter) {
    for (const std::string_view symbol : {"A", "E", "R", "M"}) {
        if (parameter == symbol || parameter.substr(0, 2) == std::string(symbol) + "_") return std::string(symbol);
    }
    if (parameter == "B" || parameter == "B_mean") return "B";
    return "";
}

std::string parameter_words(std::string_view parameter, std::string_view standard) {
    const bool edition_2014 = standard.find("2014") != std::string_view::npos;
    if (parameter == "A") return edition_2014 ? "Positioning error" : "Accuracy of positioning";
    if (parameter == "E") return edition_2014 ? "Systematic positioning error" : "Systematic positional deviation";
    if (parameter == "M") return edition_2014 ? "Mean positioning error" : "Mean positional deviation";
    if (parameter == "R") return "Repeatability of positioning";
    if (parameter == "B") return edition_2014 ? "Reversal error" : "Reversal value";
    if (parameter == "B_mean") return edition_2014 ? "Mean reversal error" : "Mean reversal value";
    if (parameter == "straightness") return "Straightness error";
    if (parameter == "angle") return "Angular error motion";
    if (parameter == "local") return "Local straightness error";
    if (parameter == "squareness") return "Squareness error";
    std::string words(parameter);
    std::ranges::replace(words, '_', ' ');
    return capitalised(words);
}

std::optional<document::Approach> direction_of(std::string_view parameter) {
    for (const document::Approach approach : document::both_approaches)
        if (parameter.ends_with(in_direction("", approach))) return approach;
    return std::nullopt;
}

std::string in_direction(std::string_view parameter, document::Approach approach) {
    return std::string(parameter) + "_" + std::string(word(approach));
}

namespace {

/// The parameters that may speak for a series of a kind, the first before the others.
std::vector<std::string> speaking_parameters(evaluate::SeriesKind kind) {
    switch (kind) {
        case evaluate::SeriesKind::Positioning: return {"A", "E"};
        case evaluate::SeriesKind::Angle: return {"angle"};
        case evaluate::SeriesKind::Straightness:
        case evaluate::SeriesKind::AngleSteps: return {"straightness"};
    }
    throw std::logic_error("no such kind of series");
}

}  // namespace

std::string headline_parameter(const document::Series& series, const evaluate::SeriesEvaluation& evaluation) {
    const auto limited = [&](const std::string& name) {
        return std::ranges::find(series.tolerances, name, &document::Tolerance::parameter) != series.tolerances.end();
    };
    const auto evaluated = [&](const std::string& name) { return value_of_parameter(evaluation, name).has_value(); };
    const std::vector<std::string> candidates = speaking_parameters(evaluation.kind);
    for (const std::string& both : candidates)
        if (limited(both) || evaluated(both)) return both;
    // One direction only: its own parameters speak.
    for (const std::string& both : candidates)
        for (const document::Approach approach : document::both_approaches)
            if (evaluated(in_direction(both, approach))) return in_direction(both, approach);
    const evaluate::Parameter* first = evaluate::find_parameter(evaluation, candidates.front());
    return first && first->stated ? candidates.front() : candidates.back();
}

std::string revision_suffix(const document::Job& job) { return job.revision ? ", revision " + std::to_string(*job.revision) : ""; }

std::string date_part(std::string_view date_time) { return std::string(date_time.substr(0, date_time.find('T'))); }

}  // namespace wayfolio::report
