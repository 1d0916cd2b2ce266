#include "support/samples/sample_set.hpp"

namespace wayfolio::samples {

Json published_anova() {
    // NIST/ITL Statistical Reference Datasets, Analysis of Variance, SiRstv: resistivity of a silicon wafer, five instruments,
    // five readings each. Rows here are the readings (as runs), columns the instruments (as targets); decimals as published.
    const std::vector<std::vector<std::string>> rows{{"196.3052", "196.3042", "196.1303", "196.2795", "196.2119"},
                                                     {"196.1240", "196.3825", "196.2005", "196.1748", "196.1051"},
                                                     {"196.1890", "196.1669", "196.2889", "196.1494", "196.1850"},
                                                     {"196.2569", "196.3257", "196.0343", "196.1485", "196.0052"},
                                                     {"196.3403", "196.0422", "196.1811", "195.9885", "196.2090"}};
    Json runs = Json::array();
    for (const auto& row : rows) {
        Json readings = Json::array();
        for (const std::string& digits : row) readings.push_back(number_as_written(digits));
        runs.push_back({{"approach", "positive"}, {"deviations", std::move(readings)}});
    }
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job",
             {{"number", "NIST-SiRstv"},
              {"title", "Published reference numbers NIST StRD SiRstv as 5 targets and 5 runs: these are not axis measurements"},
              {"data_notice", "Published reference numbers, not an axis"},
              {"status", "final"},
              {"remarks",
               {"Source: NIST/ITL Statistical Reference Datasets, Analysis of Variance, SiRstv (wafer resistivity in ohm cm, "
                "read here as µm).",
                "The certified residual standard deviation is 0.104076068334656; the pooled s of the five targets must agree "
                "with it."}}}},
            {"series", Json::array({{{"id", "sirstv"},
                                     {"error", "EXX"},
                                     {"state", "published numbers"},
                                     {"unit", "um"},
                                     {"position_unit", "mm"},
                                     {"sign", "actual-minus-target"},
                                     {"targets", {1, 2, 3, 4, 5}},
                                     {"runs", std::move(runs)}}})}};
}

Json smallest() {
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", {{"data_notice", "Invented data for demonstration"}}},
            {"series", Json::array({{{"id", "x"},
                                     {"error", "EXX"},
                                     {"unit", "um"},
                                     {"position_unit", "mm"},
                                     {"targets", {0, 250, 500}},
                                     {"runs",
                                      {{{"approach", "positive"}, {"deviations", {0.1, 1.4, 2.2}}},
                                       {{"approach", "negative"}, {"deviations", {-0.6, 0.5, 1.6}}}}}}})}};
}

std::vector<SampleFile> shown_samples() {
    std::vector<SampleFile> files{{"short-axis.json", json_text(short_axis())},
                                  {"long-axis.json", json_text(long_axis())},
                                  {"rotary-axis.json", json_text(rotary_axis())},
                                  {"two-axes.json", json_text(two_axes())},
                                  {"nist-sirstv.json", json_text(published_anova())},
                                  {"smallest.json", json_text(smallest())}};
    for (const auto& [day, visit] : earlier_visits()) files.push_back({"visits/" + day + ".json", json_text(visit)});
    return files;
}

}  // namespace wayfolio::samples
