#include "evaluate/review/site/judged_series.hpp"
#include "units/number_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

namespace wayfolio::evaluate {
namespace {

std::string target_words(const JudgedSeries& j, std::size_t target) {
    return fmt::format("{} {}", units::shortest(j.source.targets[target].written), j.evaluated.position_unit.symbol);
}

/// Two targets whose exchange makes all rise, or all fall.
std::optional<std::array<std::size_t, 2>> exchanged_targets(const document::Series& series) {
    constexpr std::size_t fewest = 4;  // fewer have hardly an order
    std::vector<double> written;
    for (const auto& target : series.targets) written.push_back(target.written);
    if (written.size() < fewest) return std::nullopt;
    std::vector<double> sorted = written;
    std::sort(sorted.begin(), sorted.end());
    for (int turn = 0; turn < 2; ++turn, std::reverse(sorted.begin(), sorted.end())) {
        std::vector<std::size_t> off;
        for (std::size_t i = 0; i < written.size(); ++i)
            if (written[i] != sorted[i]) off.push_back(i);
        if (off.size() == 2) return std::array{off[0], off[1]};
    }
    return std::nullopt;
}

void add_exchanged_targets(const JudgedSeries& j) {
    const auto pair = exchanged_targets(j.source);
    if (!pair) return;
    j.add(FindingCode::PositionsSwapped,
          fmt::format("targets {} and {} ({} and {}) stand in each other's place: the list is in order but for them", (*pair)[0] + 1,
                      (*pair)[1] + 1, target_words(j, (*pair)[0]), target_words(j, (*pair)[1])),
          fmt::format("series {} (/series/{}/targets/{})", j.evaluated.id, j.place, (*pair)[0]), "certain",
          "compare with the program that moved the axis; correct the list, and leave the readings in the order they were taken");
}

void add_beyond_travel(const JudgedSeries& j, const document::Document& document) {
    const auto* axis = document::find_axis(document, j.evaluated.error.axis);
    if (!axis || !axis->travel) return;
    const PositionUnit& unit = axis->travel->unit;
    const double from = std::min(axis->travel->from.in(unit), axis->travel->to.in(unit)),
                 to = std::max(axis->travel->from.in(unit), axis->travel->to.in(unit));
    const bool round = j.evaluated.error.axis_is_rotary() &&
                       axis->travel->to.in(units::position_degree)-axis->travel->from.in(units::position_degree) >= 360;
    if (round) return;  // it turns on and on
    const double dust = 1e-9 * (to - from);
    std::vector<std::size_t> beyond;
    for (std::size_t i = 0; i < j.source.targets.size(); ++i) {
        const double place = j.source.targets[i].position.in(unit);
        if (place < from - dust || place > to + dust) beyond.push_back(i);
    }
    if (beyond.empty()) return;
    j.add(FindingCode::TargetsBeyondTravel,
          fmt::format("{} beyond the travel of axis {} ({} to {} {}), the first at {}",
                      beyond.size() == 1 ? std::string("one target lies") : fmt::format("{} targets lie", beyond.size()), axis->name,
                      units::shortest(from), units::shortest(to), unit.symbol, target_words(j, beyond.front())),
          fmt::format("series {} (/series/{}/targets/{})", j.evaluated.id, j.place, beyond.front()), "certain",
          "compare targets and travel with the machine; correct what is wrong");
}

/// The number that a word is, or 0.
std::size_t number_of(const std::string& word) {
    constexpr std::array<std::string_view, 11> words{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
    const auto at = std::find(words.begin(), words.end(), word);
    if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    return error == std::errc() && end == word.data() + word.size() ? number : 0;
}

std::vector<std::string> lower_words(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        if (std::isalnum(byte))
            words.back() += static_cast<char>(std::tolower(byte));
        else if (!words.back().empty())
            words.emplace_back();
    }
    return words;
}

/// Of "five runs over 2 m" or "at least 3 bidirectional runs" the number; 0 where the text names none.
std::size_t agreed_runs(const std::string& text) {
    const auto words = lower_words(text);
    constexpr std::size_t between = 2;  // words between the number and "runs"
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] != "runs" && words[i] != "run") continue;
        for (std::size_t back = 1; back <= between + 1 && back <= i; ++back)
            if (const std::size_t number = number_of(words[i - back]); number > 0) return number;
    }
    return 0;
}

void add_fewer_runs(const JudgedSeries& j, const document::Document& document) {
    std::size_t agreed = 0;
    for (const auto& text : document.evaluation.agreed)
        if (const std::size_t runs = agreed_runs(text); runs > 0 && (agreed == 0 || runs < agreed)) agreed = runs;
    document::ByApproach<std::size_t> made{};
    for (const auto& run : j.source.runs) made[run.approach] += 1;
    for (const Approach approach : document::both_approaches) {
        if (made[approach] == 0 || made[approach] >= agreed) continue;
        j.add(FindingCode::FewerRunsThanAgreed,
              fmt::format("{} {} with {} approach, where {} were agreed", made[approach], made[approach] == 1 ? "run" : "runs",
                          document::word(approach), agreed),
              fmt::format("series {} (/series/{}/runs)", j.evaluated.id, j.place),
              "read from evaluation.agreed; certain if that means runs of one approach",
              "measure the missing runs, or agree on fewer and write that to evaluation.agreed");
    }
}

}  // namespace

void add_target_list(const JudgedSeries& j, const document::Document& document) {
    add_exchanged_targets(j);
    add_beyond_travel(j, document);
    add_fewer_runs(j, document);
}

}  // namespace wayfolio::evaluate
