#include "support/scatter_jobs.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <map>

/// wayfolio-scatter [JOBS [TARGETS ...]]: how often the truth lies within what is said of ranges and maxima, for axes that are known.
/// One row a class, number of readings, systematic part and parameter: value ± U alone, the statement, bias and its true mean, widths.

namespace {

using namespace wayfolio;
using support::Shape;

struct Sums {
    double by_U = 0, by_statement = 0, U = 0, bias = 0, error = 0, width = 0;
};

void add_job(std::map<std::string, Sums>& sums, evaluate::Draws& draws, const support::ScatterPlan& plan, const std::string& symbol) {
    auto job = support::scatter_job(draws, plan, symbol);
    std::erase_if(job.measured.parameters, [&](const evaluate::Parameter& parameter) {
        return parameter.name == "B_mean" || parameter.name == "slope" || (symbol == "EYX" && parameter.name == "B");
    });
    evaluate::add_scatter_bias(job.measured, 0);
    for (const auto& parameter : job.measured.parameters) {
        const auto one = support::held(job, parameter, plan);
        if (!one) continue;
        Sums& sum = sums[one->parameter];
        sum.by_U += one->by_U ? 1 : 0;
        sum.by_statement += one->by_statement ? 1 : 0;
        sum.U += one->U;
        sum.bias += one->bias;
        sum.error += one->error;
        sum.width += one->width / (2 * one->U);
    }
}

void print_class(const char* name, const support::ScatterPlan& plan, int jobs) {
    std::map<std::string, Sums> sums;
    evaluate::Draws draws(1000 * plan.targets + plan.readings);
    for (int job = 0; job < jobs; ++job)
        for (const char* symbol : {"EXX", "EYX"}) add_job(sums, draws, plan, symbol);
    const double percent = 100.0 / jobs;
    for (const auto& [parameter, sum] : sums)
        fmt::print("{:9} {:3} {:3} {:4.1f} {:22} {:6.1f} {:6.1f} {:7.3f} {:7.3f} {:7.3f} {:6.2f}\n", name, plan.targets, plan.readings,
                   plan.systematic, parameter, percent * sum.by_U, percent * sum.by_statement, sum.error / jobs, sum.bias / jobs,
                   sum.U / jobs, sum.width / jobs);
    std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
    const int jobs = count > 1 ? std::atoi(words[1]) : 1000;
    std::vector<std::size_t> targets;
    for (int i = 2; i < count; ++i) targets.push_back(static_cast<std::size_t>(std::atoi(words[i])));
    if (targets.empty()) targets = {5, 11, 27};
    fmt::print("class       m   n  sys parameter                 ±U %  said %   error   bias       U  width\n");
    for (const double systematic : {0.0, 1.0})
        for (const auto& [name, shape] : {std::pair("flat", Shape::Flat), {"sloped", Shape::Sloped}, {"periodic", Shape::Periodic}})
            for (const std::size_t readings : {2u, 3u, 5u, 10u})
                for (const std::size_t m : targets)
                    print_class(name, {.shape = shape, .targets = m, .readings = readings, .systematic = systematic}, jobs);
}
