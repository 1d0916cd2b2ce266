#include "gather/gathering.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <map>
#include <set>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;

namespace {

/// Readings as hundredths of a micrometre, "_" for a missing one; targets as tenths of a millimetre.
struct RandomJob {
    std::vector<int> targets;  ///< rising
    struct OneRun {
        int number;
        bool positive;
        std::vector<std::optional<int>> readings;
    };
    std::vector<OneRun> runs;  ///< by number, positive before negative
};

std::string decimals(int value, int places, char mark) {
    std::string text = std::to_string(std::abs(value));
    while (std::ssize(text) <= places) text.insert(0, "0");
    text.insert(text.size() - static_cast<std::size_t>(places), 1, mark);
    return (value < 0 ? "-" : "") + text;
}

RandomJob random_job(bool missing) {
    RandomJob job;
    const auto targets = *rc::gen::suchThat(rc::gen::container<std::set<int>>(rc::gen::inRange(-9000, 9000)),
                                            [](const std::set<int>& all) { return all.size() >= 2 && all.size() <= 8; });
    job.targets.assign(targets.begin(), targets.end());
    const int runs = *rc::gen::inRange(1, 4);
    const bool both = *rc::gen::arbitrary<bool>();
    for (int number = 1; number <= runs; ++number)
        for (const bool positive : {true, false}) {
            if (!positive && !both) continue;
            auto& run = job.runs.emplace_back(RandomJob::OneRun{number, positive, {}});
            for (std::size_t i = 0; i < job.targets.size(); ++i) {
                const bool lost = missing && *rc::gen::inRange(0, 6) == 0;
                const bool last =
                    i + 1 == job.targets.size() && std::ranges::none_of(run.readings, [](const auto& one) { return one.has_value(); });
                run.readings.push_back(lost && !last ? std::nullopt : std::optional(*rc::gen::inRange(-5000, 5000)));
            }
        }
    return job;
}

std::string expected_words(const RandomJob& job) {
    std::string text;
    for (const int target : job.targets) text += (text.empty() ? "" : " ") + decimals(target, 1, '.');
    for (const RandomJob::OneRun& run : job.runs) {
        text += run.positive ? " | +" : " | -";
        for (const auto& reading : run.readings) text += " " + (reading ? decimals(*reading, 2, '.') : std::string("_"));
    }
    return text;
}

struct RandomDialect {
    char delimiter, mark;
    bool quoted, latin1, utf16;
    std::string line_end;

    static RandomDialect any() {
        RandomDialect dialect{*rc::gen::element(',', ';', '\t', '|'),
                              *rc::gen::element('.', ','),
                              *rc::gen::arbitrary<bool>(),
                              false,
                              false,
                              *rc::gen::element<std::string>("\n", "\r\n", "\r")};
        const int encoding = *rc::gen::inRange(0, 3);
        dialect.latin1 = encoding == 1;
        dialect.utf16 = encoding == 2;
        dialect.quoted = dialect.quoted || dialect.mark == dialect.delimiter;
        return dialect;
    }
    [[nodiscard]] std::string members() const {
        const std::string delimiter_word = delimiter == '\t' ? "tab" : std::string(1, delimiter);
        return R"("delimiter": ")" + delimiter_word + R"(", "decimal_mark": ")" + mark + "\"" +
               (latin1 ? R"(, "encoding": "latin-1")" : "") + ", ";
    }
    [[nodiscard]] std::string file(const std::vector<std::vector<std::string>>& cells) const {
        std::string text;
        for (const auto& row : cells) {
            for (std::size_t i = 0; i < row.size(); ++i)
                text += (i == 0 ? "" : std::string(1, delimiter)) + (quoted ? "\"" + row[i] + "\"" : row[i]);
            text += line_end;
        }
        if (latin1) return "\xB5" + std::string(1, delimiter) + "\xB0" + line_end + text;
        if (!utf16) return "\u00b5" + line_end + text;
        std::string wide = "\xFE\xFF";
        for (const char letter : text) wide += std::string{'\0', letter};
        return wide;
    }
};

std::vector<std::size_t> way_of(const RandomJob& job, bool positive) {
    std::vector<std::size_t> way(job.targets.size());
    for (std::size_t i = 0; i < way.size(); ++i) way[i] = positive ? i : way.size() - 1 - i;
    return way;
}

std::string cell_of(const std::optional<int>& reading, char mark) { return reading ? decimals(*reading, 2, mark) : ""; }

}  // namespace

TEST_CASE("random readings written as one row a reading, in any dialect and order of rows, come back") {
    rc::check([] {
        const RandomJob job = random_job(/*missing=*/true);
        const RandomDialect dialect = RandomDialect::any();
        std::vector<std::vector<std::string>> cells;
        for (const auto& run : job.runs)
            for (const std::size_t i : way_of(job, run.positive))
                cells.push_back({decimals(job.targets[i], 1, dialect.mark), run.positive ? "+" : "-", std::to_string(run.number),
                                 cell_of(run.readings[i], dialect.mark)});
        // Rows of one run keep their order; runs may come in any.
        if (*rc::gen::arbitrary<bool>()) std::ranges::stable_sort(cells, {}, [](const auto& row) { return row[1]; });
        cells.insert(cells.begin(), {"Target", "Dir", "Run", "Dev"});
        const std::string words = words_of(mapping_of(dialect.members() + rows), {{"x.csv", dialect.file(cells)}});
        RandomJob sorted = job;
        std::ranges::stable_sort(sorted.runs, {}, [&](const auto& run) {  // of equal numbers the one that came first
            const bool first_negative = cells.size() > 1 && cells[1][1] == "-";
            return 2 * run.number + (run.positive == first_negative ? 1 : 0);
        });
        RC_ASSERT(words == expected_words(sorted));
    });
}

TEST_CASE("random readings written as one row a target, one column a run, come back") {
    rc::check([] {
        const RandomJob job = random_job(/*missing=*/true);
        const RandomDialect dialect = RandomDialect::any();
        std::vector<std::vector<std::string>> cells{{"T"}};
        for (const auto& run : job.runs) cells[0].push_back((run.positive ? "up " : "down ") + std::to_string(run.number));
        for (std::size_t i = 0; i < job.targets.size(); ++i) {
            cells.push_back({decimals(job.targets[i], 1, dialect.mark)});
            for (const auto& run : job.runs) cells.back().push_back(cell_of(run.readings[i], dialect.mark));
        }
        const bool both = job.runs.size() > 1 && !job.runs[1].positive;
        const std::string members =
            dialect.members() + R"("position": {"column": "T"}, "values": [{"series": "x", "columns": "up #", "approach": "positive"})" +
            (both ? R"(, {"series": "x", "columns": "down #", "approach": "negative"}])" : "]");
        RC_ASSERT(words_of(mapping_of(members), {{"x.csv", dialect.file(cells)}}) == expected_words(job));
    });
}

TEST_CASE("random readings written as one row a run, targets in the heads, come back") {
    rc::check([] {
        const RandomJob job = random_job(/*missing=*/true);
        const RandomDialect dialect = RandomDialect::any();
        std::vector<std::vector<std::string>> cells{{"Run", "Dir"}};
        for (const int target : job.targets) cells[0].push_back(decimals(target, 1, dialect.mark) + " mm");
        for (const auto& run : job.runs) {
            cells.push_back({std::to_string(run.number), run.positive ? "+" : "-"});
            for (const auto& reading : run.readings) cells.back().push_back(cell_of(reading, dialect.mark));
        }
        const std::string members =
            dialect.members() + R"("run": {"column": "Run"}, "approach": {"column": "Dir", "positive": ["+"], "negative": ["-"]},
            "values": [{"series": "x", "columns": "# mm", "are": "targets"}])";
        RC_ASSERT(words_of(mapping_of(members), {{"x.csv", dialect.file(cells)}}) == expected_words(job));
    });
}

TEST_CASE("random readings in the order of time come back, with runs and approaches by the way the position goes") {
    rc::check([] {
        const RandomJob job = random_job(/*missing=*/true);
        const RandomDialect dialect = RandomDialect::any();
        const bool both = job.runs.size() > 1 && !job.runs[1].positive;
        std::vector<std::vector<std::string>> cells{{"T", "D"}};
        for (const auto& run : job.runs)
            for (const std::size_t i : way_of(job, run.positive))
                cells.push_back({decimals(job.targets[i], 1, dialect.mark), cell_of(run.readings[i], dialect.mark)});
        const std::string members = dialect.members() + R"("position": {"column": "T"}, "motion": [)" +
                                    (both ? R"("positive", "negative")" : R"("positive")") +
                                    R"(], "values": [{"series": "x", "column": "D"}])";
        RC_ASSERT(words_of(mapping_of(members), {{"x.csv", dialect.file(cells)}}) == expected_words(job));
    });
}

TEST_CASE("random actual positions in blocks come back as the deviations that they were made from") {
    rc::check([] {
        const RandomJob job = random_job(/*missing=*/true);
        const RandomDialect dialect = RandomDialect::any();
        std::vector<std::vector<std::string>> cells;
        for (const auto& run : job.runs) {
            cells.push_back({"Run", std::to_string(run.number)});
            cells.push_back({"Direction", run.positive ? "fwd" : "back"});
            cells.push_back({"T", "Actual"});
            for (const std::size_t i : way_of(job, run.positive)) {
                const auto& reading = run.readings[i];
                // A tenth of a millimetre is 10 000 hundredths of a micrometre.
                cells.push_back({decimals(job.targets[i], 1, dialect.mark),
                                 reading ? decimals(job.targets[i] * 10'000 + *reading, 5, dialect.mark) : ""});
            }
            cells.push_back({"", ""});
        }
        const std::string members = dialect.members() + R"("position": {"column": "T"}, "run": {"above": "Run"},
            "approach": {"above": "Direction", "positive": ["fwd"], "negative": ["back"]},
            "values": [{"series": "x", "column": "Actual", "reads": "position"}])";
        RC_ASSERT(words_of(mapping_of(members), {{"x.csv", dialect.file(cells)}}) == expected_words(job));
    });
}
