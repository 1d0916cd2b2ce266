#include "evaluate/evaluation.hpp"
#include "evaluate/trace/beside.hpp"
#include "evaluate/trace/trace.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/json_text.hpp"
#include "support/documents.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <numbers>

/// A trace of many samples is gone through on two threads where there are two: what is found does not depend on it.
using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

constexpr std::size_t count = 200'003;

document::TraceSample sample_at(std::size_t i) {
    const double way = 1000.0 * static_cast<double>(i) / (count - 1), x = way < 500 ? way : 1000 - way;
    const auto noise = static_cast<double>(i * 2'654'435'761U % 1009) / 1009;
    return {units::Position(x, units::position_millimetre),
            units::Deviation(x * (500 - x) / 1e4 + std::sin(2 * std::numbers::pi * x / 10) + noise, units::micrometre)};
}

/// A straightness with a pitch and a cut-off, so that every part of the evaluation takes part.
/// @param at_a_time samples that are handed on together
document::Series dense_straightness(std::size_t at_a_time) {
    document::Series series = support::series("EYX", {100, 250, 400}, {}, {}, units::micrometre, units::position_millimetre);
    series.trace.emplace();
    series.trace->pitch = 10;
    series.trace->cutoff = 20;
    const auto walk = [at_a_time](const document::TakeSamples& take) {
        std::vector<document::TraceSample> some;
        for (std::size_t i = 0; i < count; ++i) {
            some.push_back(sample_at(i));
            if (some.size() < at_a_time && i + 1 < count) continue;
            take(some);
            some.clear();
        }
    };
    series.trace->many = std::make_shared<const document::ManySamples>(document::ManySamples{
        .count = count, .low = {0, units::position_millimetre}, .high = {500, units::position_millimetre}, .begin = {sample_at(0)},
        .sha256 = {}, .walk = walk});
    return series;
}

std::string found_by(std::size_t threads, std::size_t at_a_time) {
    const document::Document document = support::document(dense_straightness(at_a_time));
    const document::Series& series = document.series.at(0);
    const SeriesEvaluation evaluated = evaluate::evaluate(document).series.at(0);
    const TraceEvaluation trace = evaluate_trace(document, series, evaluated, threads).value();
    std::string found = to_text(trace_json(trace, evaluated));
    for (const auto& [position, value] : trace.outline)
        found += fmt::format("{:a} {:a}\n", position.in(units::position_millimetre), value.in(units::micrometre));
    return found;
}

}  // namespace

TEST_CASE("a trace of many samples is evaluated alike on one thread and on two, however many samples come together") {
    const std::string found = found_by(1, 1000);
    CHECK(found.find("\"periodic\"") != std::string::npos);
    CHECK(found.find("\"filtered\"") != std::string::npos);
    CHECK(found.find("\"local\"") != std::string::npos);
    CHECK(found_by(2, 1000) == found);
    CHECK(found_by(2, 1) == found);
    CHECK(found_by(1, count) == found);
    CHECK(found_by(2, count) == found);
}

TEST_CASE("a walk that fails ends the evaluation by its failure") {
    document::Series series = dense_straightness(1000);
    auto many = std::make_shared<document::ManySamples>(*series.trace->many);
    many->walk = [walk = many->walk](const document::TakeSamples& take) {
        walk(take);
        throw std::runtime_error("was changed");
    };
    const SeriesEvaluation evaluated = evaluate::evaluate(support::document(series)).series.at(0);
    series.trace->many = many;
    const document::Document document = support::document(series);
    for (const std::size_t threads : {1, 2})
        CHECK_THROWS_WITH(evaluate_trace(document, document.series.at(0), evaluated, threads), "was changed");
}

TEST_CASE("what is given to another thread is gone through in order, and its failure is told at the end") {
    for (const bool other_thread : {false, true}) {
        std::vector<int> gone;
        Beside<int> beside(other_thread, [&](int number) { gone.push_back(number); });
        for (int number = 0; number < 1000; ++number) {
            beside.next() = number;
            beside.give();
        }
        beside.finish();
        CHECK(gone.size() == 1000);
        CHECK(std::ranges::is_sorted(gone));

        int tried = 0;
        Beside<int> failing(other_thread, [&](int number) {
            ++tried;
            if (number == 10) throw std::runtime_error("ten");
        });
        for (int number = 0; number < 100; ++number) {
            failing.next() = number;
            failing.give();
        }
        CHECK_THROWS_WITH(failing.finish(), "ten");
        CHECK(tried == 11);
    }
}
