#include "support/samples/measured_series.hpp"

namespace wayfolio::samples {
namespace {

std::string two_digits(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

}  // namespace

std::string clock_time(const std::string& day, int minute) {
    return day + "T" + two_digits(minute / 60) + ":" + two_digits(minute % 60) + "+02:00";
}

Json plain_number(double value) {
    if (value == std::floor(value)) return static_cast<std::int64_t>(value);
    return value;
}

Json plain_numbers(const std::vector<double>& values) {
    Json list = Json::array();
    for (const double value : values) list.push_back(plain_number(value));
    return list;
}

Json measured_runs(const RunPlan& plan, const Reading& deviation, double noise_sd, Noise& noise) {
    const int passes = plan.runs_each_way * (plan.negative_too ? 2 : 1);
    Json runs = Json::array();
    for (int pass = 0; pass < passes; ++pass) {
        const bool positive = !plan.negative_too || pass % 2 == 0;
        const double elapsed = passes > 1 ? pass / (passes - 1.0) : 0;
        Json readings = Json::array();
        for (const double x : plan.targets)
            readings.push_back(shown(deviation({x, positive, elapsed}) + noise_sd * noise.normal(), plan.steps_per_unit));
        const int start = plan.start_minute + pass * plan.minutes_per_run;
        runs.push_back({{"approach", positive ? "positive" : "negative"},
                        {"started", clock_time(plan.day, start)},
                        {"ended", clock_time(plan.day, start + plan.minutes_per_run - 1)},
                        {"deviations", std::move(readings)}});
    }
    return runs;
}

Json measured_series(const LinearAxis& axis, const std::string& symbol, const std::string& state, const RunPlan& plan,
                     Noise& noise) {
    const bool length = symbol == "EXX" || symbol == "EYX" || symbol == "EZX";
    const std::string tail = state == "as-found" ? "-found" : state == "as-left" ? "-left" : "";
    return {
        {"id", "x-" + lower(symbol) + tail},
        {"error", symbol},
        {"state", state},
        {"instrument", symbol == "EAX" ? "level" : "laser"},
        {"unit", length ? "um" : "urad"},
        {"position_unit", "mm"},
        {"sign", "actual-minus-target"},
        {"measurement_line", 0},
        {"targets", plain_numbers(plan.targets)},
        {"runs", measured_runs(
                     plan, [&](const Visit& v) { return true_deviation(axis, symbol, v); }, reading_noise(axis, symbol), noise)}};
}

Json tolerance(const std::string& parameter, double limit, const std::string& unit, const std::string& source) {
    return {{"parameter", parameter}, {"limit", plain_number(limit)}, {"unit", unit}, {"source", source}};
}

}  // namespace wayfolio::samples
