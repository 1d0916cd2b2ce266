#include "fuzz/mutator.hpp"
#include "fuzz/targets.hpp"
#include "layouts/layout.hpp"

#include <fmt/format.h>

#include <sys/resource.h>
#include <sys/time.h>

#include <csignal>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>

/// wayfolio-fuzz TARGET|all [SECONDS [SEED]]: gives each target its seeds, what once broke it, and for so many seconds of processor time
/// changed inputs. The input at work lies in wayfolio-fuzz.input, so that what ends the program is there to look at. SECONDS 0: only what
/// is known. Ends with 1 at the first finding.

namespace {

using namespace wayfolio::fuzz;

/// What an input of less than a megabyte may take: more is a finding. Sanitizers and want of optimisation cost a factor of their own.
constexpr int longest_run_s = 60;

double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void keep(const std::string& bytes) {
    std::ofstream file("wayfolio-fuzz.input", std::ios::binary);
    file << bytes;
}

/// Whether the target takes it as it should.
bool passes(const Target& target, const std::string& bytes) {
    keep(bytes);
    const itimerval most{{}, {longest_run_s, 0}};
    setitimer(ITIMER_PROF, &most, nullptr);  // SIGPROF ends the program
    try {
        target.run(bytes);
    } catch (const std::exception& finding) {
        std::cerr << fmt::format("{}: {} (wayfolio-fuzz.input)\n", target.name, finding.what());
        return false;
    }
    const itimerval none{};
    setitimer(ITIMER_PROF, &none, nullptr);
    return true;
}

bool try_target(const Target& target, double seconds, std::uint64_t seed) {
    const auto seeds = target.seeds();
    auto inputs = seeds;
    for (std::string& known : corpus_of(target)) inputs.push_back(std::move(known));
    for (const std::string& input : inputs)
        if (!passes(target, input)) return false;
    Mutator mutator(seed);
    std::uint64_t runs = 0;
    double longest = 0;
    const double start = processor_seconds();
    for (double now = start; now - start < seconds; ++runs) {
        if (!passes(target, mutator.mutated(inputs[runs % inputs.size()], inputs))) return false;
        const double then = processor_seconds();
        longest = std::max(longest, then - now);
        now = then;
    }
    std::cout << fmt::format("{}: {} known inputs, {} changed ones, the longest {:.1f} s; seed {}\n", target.name, inputs.size(), runs,
                             longest, seed)
              << std::flush;
    return true;
}

}  // namespace

int main(int count, char** words) {
    const std::string_view name = count > 1 ? words[1] : "";
    const double seconds = count > 2 ? std::atof(words[2]) : 0;
    const std::uint64_t seed = count > 3 ? std::strtoull(words[3], nullptr, 10) : 1;
    if (name.empty()) {
        std::cerr << "usage: wayfolio-fuzz TARGET|all [SECONDS [SEED]]\n";
        return 2;
    }
    // Without the shipped layouts every drawing would end in a told fault, and nothing would be tried.
    (void)wayfolio::layouts::read_layout("report", "");
    for (const Target& target : targets())
        if ((name == "all" || name == target.name) && !try_target(target, seconds, seed)) return 1;
    return 0;
}
