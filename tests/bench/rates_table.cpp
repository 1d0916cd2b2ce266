#include "support/fault_jobs.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <map>
#include <string_view>

/// wayfolio-rates [CLEAN [FAULTY [PART]]]: how often clean jobs of each class raise an alarm, and how often each planted fault is found
/// and called by its own name; only rows whose name has PART in it. Every row has a seed of its own.

namespace {

using namespace wayfolio;

std::uint64_t seed_of(std::string_view name) {
    std::uint64_t seed = 14695981039346656037U;  // FNV-1a
    for (const char letter : name) seed = (seed ^ static_cast<unsigned char>(letter)) * 1099511628211U;
    return seed;
}

/// The other codes that were told, the most frequent first.
std::string others_in_words(const std::map<evaluate::FindingCode, int>& others, int jobs) {
    std::vector<std::pair<int, evaluate::FindingCode>> sorted;
    for (const auto& [code, count] : others) sorted.emplace_back(-count, code);
    std::sort(sorted.begin(), sorted.end());
    std::string words;
    for (std::size_t i = 0; i < sorted.size() && i < 4; ++i)
        words += fmt::format("{}{} {:.1f}", i == 0 ? "" : ", ", evaluate::word(sorted[i].second), -100.0 * sorted[i].first / jobs);
    return words;
}

void print_clean(const support::CleanClass& clean, int jobs) {
    evaluate::Draws draws(seed_of(clean.name));
    int alarms = 0;
    std::map<evaluate::FindingCode, int> codes;
    for (int job = 0; job < jobs; ++job) {
        const auto lines = support::said_of(clean.make(draws));
        alarms += support::alarms(lines) ? 1 : 0;
        for (const auto& line : lines) codes[line.code] += 1;
    }
    fmt::print("{:36} {:6.1f}   {}\n", clean.name, 100.0 * alarms / jobs, others_in_words(codes, jobs));
    std::fflush(stdout);
}

void print_fault(const support::PlantedFault& fault, int jobs) {
    evaluate::Draws draws(seed_of(fault.name));
    int named = 0, found = 0;
    std::map<evaluate::FindingCode, int> others;
    for (int job = 0; job < jobs; ++job) {
        const auto lines = support::said_of(fault.make(draws));
        named += support::names(lines, fault.code) ? 1 : 0;
        found += lines.empty() ? 0 : 1;
        for (const auto& line : lines)
            if (line.code != fault.code) others[line.code] += 1;
    }
    fmt::print("{:36} {:6.1f} {:6.1f}   {}\n", fault.name, 100.0 * named / jobs, 100.0 * found / jobs, others_in_words(others, jobs));
    std::fflush(stdout);
}

/// What no test can better: an outlier found by who knows the scatter and that one reading at most is off, with all 5 % for it alone.
void print_bound(double sigmas, int jobs) {
    evaluate::Draws draws(seed_of("bound"));
    for (const int targets : {13, 31, 49}) {
        const int readings = 10 * targets;
        std::vector<double> largest;
        int found = 0;
        const auto farthest = [&](double planted) {
            double most = 0;
            for (int group = 0; group < readings / 5; ++group) {
                std::array<double, 5> values{};
                double mean = 0;
                for (double& value : values) value = draws.normal(0, 1);
                if (group == 0) values[0] += planted;
                for (const double value : values) mean += value / 5;
                for (const double value : values) most = std::max(most, std::abs(value - mean) / std::sqrt(0.8));
            }
            return most;
        };
        for (int job = 0; job < 20 * jobs; ++job) largest.push_back(farthest(0));
        std::sort(largest.begin(), largest.end());
        const double critical = largest[static_cast<std::size_t>(0.95 * static_cast<double>(largest.size()))];
        for (int job = 0; job < 20 * jobs; ++job) found += farthest(sigmas) > critical ? 1 : 0;
        fmt::print("outlier of {} sigma, {} targets: critical {:.2f}, at best {:.1f} %\n", sigmas, targets, critical, 5.0 * found / jobs);
    }
}

}  // namespace

int main(int count, char** words) {
    const int clean = count > 1 ? std::atoi(words[1]) : 1000, faulty = count > 2 ? std::atoi(words[2]) : 200;
    const std::string_view part = count > 3 ? words[3] : "";
    const auto asked = [&](std::string_view name) { return name.find(part) != std::string_view::npos; };
    fmt::print("clean jobs                           alarm %   codes told, in % of jobs\n");
    for (const auto& each : support::clean_classes())
        if (asked(each.name) && clean > 0) print_clean(each, clean);
    fmt::print("\nfault                                named % found %   other codes\n");
    for (const auto& each : support::planted_faults())
        if (asked(each.name) && faulty > 0) print_fault(each, faulty);
    if (!part.empty()) return 0;
    fmt::print("\nThe best that can be had at 5 %, simulated with known scatter:\n");
    print_bound(5, faulty);
}
