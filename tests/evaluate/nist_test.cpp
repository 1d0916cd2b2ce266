#include "evaluate/written/evaluation_json.hpp"
#include "evaluate/nist_data.hpp"
#include "document/read_document.hpp"
#include "support/evaluations.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

// Certified values: NIST/ITL Statistical Reference Datasets, univariate summary statistics and analysis of variance, as printed
// with each data set (15 digits).
using namespace wayfolio;
using support::Rows;

namespace {

/// Each value is one run over one target, all in the positive direction.
document::Series one_target(const std::vector<double>& values) {
    Rows rows;
    for (const double value : values) rows.push_back({value});
    return support::series("EXX", {0}, rows, {});
}

/// The per-target values as a reader of the JSON output gets them.
nlohmann::json targets_of(const document::Document& document) {
    return nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)))["series"][0]["targets"];
}

nlohmann::json targets_of(const document::Series& series) { return targets_of(support::document(series)); }

/// One value, then `pairs` times the pair: how the NumAcc and SmLs sets are made.
std::vector<double> alternating(double first, double low, double high, int pairs) {
    std::vector<double> values{first};
    for (int i = 0; i < pairs; ++i) {
        values.push_back(low);
        values.push_back(high);
    }
    return values;
}

/// SmLs01, 04, 07: nine groups of 21, with the same digit behind ever more constant leading ones. Compared value by value with NIST's
/// files SmLs04.dat and SmLs07.dat.
document::Series simulated_groups(const std::string& leading) {
    const auto number = [&](int digit) { return std::stod(leading + "." + std::to_string(digit)); };
    Rows rows(21);
    std::vector<double> targets;
    for (const int digit : {4, 3, 5, 3, 5, 3, 5, 3, 5}) {
        const auto group = alternating(number(digit), number(digit - 1), number(digit + 1), 10);
        for (std::size_t run = 0; run < rows.size(); ++run) rows[run].push_back(group[run]);
        targets.push_back(static_cast<double>(targets.size()));
    }
    return support::series("EXX", targets, rows, {});
}

struct Variance {
    double between, within, pooled;
};

/// Sums of squares and residual standard deviation of the one-way layout, from the program's own means and standard deviations.
Variance analysis(const nlohmann::json& targets) {
    double n = 0, total = 0, within = 0, freedom = 0;
    for (const auto& target : targets) {
        n = target["n_positive"];
        total += target["mean_positive"].get<double>();
        within += (n - 1) * std::pow(target["s_positive"].get<double>(), 2);
        freedom += n - 1;
    }
    const double grand = total / static_cast<double>(targets.size());
    double between = 0;
    for (const auto& target : targets) between += n * std::pow(target["mean_positive"].get<double>() - grand, 2);
    return {between, within, std::sqrt(within / freedom)};
}

}  // namespace

TEST_CASE("NIST univariate sets: certified means and standard deviations") {
    struct Set {
        const char* name;
        std::vector<double> values;
        double mean, s, s_accuracy;
    };
    // The accuracy of s in NumAcc 3 and 4 is that of the data as doubles: half a unit of the last place of 1e6 and 1e7 over 0.1.
    const std::vector<Set> sets{{"Lew", nist::lew, -177.435000000000, 277.332168044316, 1e-14},
                                {"Lottery", nist::lottery, 518.958715596330, 291.699727470969, 1e-14},
                                {"NumAcc1", {10000001, 10000003, 10000002}, 10000002, 1, 1e-15},
                                {"NumAcc2", alternating(1.2, 1.1, 1.3, 500), 1.2, 0.1, 1e-14},
                                {"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3, 500), 1000000.2, 0.1, 1e-9},
                                {"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3, 500), 10000000.2, 0.1, 1e-8}};
    for (const auto& set : sets) {
        INFO(set.name);
        const auto target = targets_of(one_target(set.values))[0];
        CHECK(target["n_positive"] == set.values.size());
        CHECK(target["mean_positive"].get<double>() == Approx(set.mean).epsilon(3e-15));
        CHECK(target["s_positive"].get<double>() == Approx(set.s).epsilon(set.s_accuracy));
    }
}

TEST_CASE("NIST SiRstv, the sample that ships: certified sums of squares and residual standard deviation") {
    const std::filesystem::path folder = WAYFOLIO_SOURCE_FOLDER;
    const auto document = document::read_document(folder / "sample-results" / "nist-sirstv.json");
    const auto found = analysis(targets_of(document));
    CHECK(found.between == Approx(5.11462616000000E-02).epsilon(1e-11));
    CHECK(found.within == Approx(2.16636560000000E-01).epsilon(1e-12));
    CHECK(found.pooled == Approx(1.04076068334656E-01).epsilon(1e-12));
}

TEST_CASE("NIST SiRstv: readings as transcribed give what the sample gives") {
    const auto found = analysis(targets_of(support::series("EXX", {1, 2, 3, 4, 5}, nist::silicon, {})));
    CHECK(found.pooled == Approx(1.04076068334656E-01).epsilon(1e-12));
}

TEST_CASE("NIST AtmWtAg as the two directions of one target: certified scatter, and the reversal that follows") {
    Rows positive, negative;
    for (const double value : nist::silver_first) positive.push_back({value});
    for (const double value : nist::silver_second) negative.push_back({value});
    const auto series = support::series("EXX", {0}, positive, negative);
    const auto target = targets_of(series)[0];
    const double s_positive = target["s_positive"], s_negative = target["s_negative"];
    // The readings are known as doubles to 1.4e-14 in 1.5e-5: nine digits of s.
    CHECK(23 * (s_positive * s_positive + s_negative * s_negative) == Approx(1.04951729166667E-08).epsilon(1e-8));
    CHECK(std::sqrt((s_positive * s_positive + s_negative * s_negative) / 2) == Approx(1.51048314446410E-05).epsilon(1e-8));
    // |B| = sqrt(2 x certified sum of squares between / 24)
    CHECK(target["reversal"].get<double>() == Approx(std::sqrt(2 * 3.63834187500000E-09 / 24)).epsilon(1e-8));
    CHECK(support::value(support::evaluated(series), "B") == Approx(1.74125e-05).epsilon(1e-8));
}

TEST_CASE("NIST SmLs01, 04 and 07: certified standard deviation behind 1, 7 and 13 constant leading digits") {
    struct Set {
        const char* leading;
        double accuracy;
    };
    // The accuracy is that of the data as doubles: a unit of the last place is 2e-16, 1e-10 and 1.2e-4.
    for (const auto& [leading, accuracy] : {Set{"1", 1e-14}, Set{"1000000", 2e-9}, Set{"1000000000000", 2e-3}}) {
        INFO(leading);
        const auto found = analysis(targets_of(simulated_groups(leading)));
        CHECK(found.within == Approx(1.8).epsilon(accuracy));
        CHECK(found.between == Approx(1.68).epsilon(accuracy));
        CHECK(found.pooled == Approx(0.1).epsilon(accuracy));
    }
}

TEST_CASE("behind 13 constant leading digits nothing is lost but what the doubles never held") {
    const auto series = simulated_groups("1000000000000");
    const auto targets = targets_of(series);
    for (std::size_t group = 0; group < targets.size(); ++group) {
        long double sum = 0, squares = 0;
        for (const auto& run : series.runs) sum += static_cast<long double>(run.deviations[group]->in(units::micrometre)) - 1e12L;
        for (const auto& run : series.runs) {
            const long double residual =
                static_cast<long double>(run.deviations[group]->in(units::micrometre)) - 1e12L - sum / 21;
            squares += residual * residual;
        }
        CHECK(targets[group]["s_positive"].get<double>() == Approx(static_cast<double>(std::sqrt(squares / 20))).epsilon(1e-14));
    }
}
