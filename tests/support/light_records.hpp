#pragma once
#include "archive/record/bag.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "document/read_document.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <string>

/// Records without drawings: real bags with document and evaluation, as an index reads them. For tests and for the large archive.
namespace wayfolio::testing {

struct LightRecord {
    std::string job = "K-1", serial = "S-1", customer = "Sample Works", day = "2024-01-10", state = "as-found";
    double accuracy_um = 4;  ///< A and E of the axis, as its two runs give them
    double limit_um = 10;
    int revision = 0;
    std::string replaces;  ///< members of job.replaces, as JSON
    double U_um = 0.8;
    std::string axis = "X";
    double travel_mm = 500;
    bool one_run_each = false;  ///< too few for s, and what is made of it
    int agreed_months = 0;      ///< until the next measurement; 0: none were
};

inline std::string light_document(const LightRecord& of) {
    const double half = of.accuracy_um / 2;
    const std::string twice =
        fmt::format(R"({{"approach": "positive", "deviations": [0, {0}, {1}]}}, {{"approach": "negative", "deviations": [0.1, {0}, {1}]}},
           )",
                    half, of.accuracy_um);
    return fmt::format(R"({{"format": "wayfolio-result", "version": 1,
 "job": {{"number": "{0}", "title": "Positioning of {9}", "data_notice": "Invented data for demonstration", "revision": {6}, {7}
  "customer": {{"name": "{2}"}}, "measured": {{"from": "{3}", "to": "{3}"}}, "issued": "{3}"}},
 "machine": {{"maker": "Example Machine Builders", "model": "Demonstrator", "serial": "{1}",
  "axes": [{{"name": "{9}", "kind": "linear"}}]}},
 "evaluation": {{"decision_rule": "guard-band"}},
 "series": [{{"id": "axis", "error": "E{9}{9}", "state": "{10}", "unit": "um", "position_unit": "mm", "targets": [0, 250, {12}],
  "runs": [{13}{{"approach": "positive", "deviations": [0, {4}, {5}]}}, {{"approach": "negative", "deviations": [0.1, {4}, {5}]}}],
  "tolerances": [{{"parameter": "E", "limit": {8}, "unit": "um", "source": "invented"}}]}}],
 "uncertainty": {{"stated": [{{"series": "axis", "parameter": "E", "expanded": {11}, "unit": "um", "coverage_factor": 2}}]}}}})",
                       of.job, of.serial, of.customer, of.day, half, of.accuracy_um, of.revision,
                       (of.replaces.empty() ? "" : "\"replaces\": {" + of.replaces + "},") +
                           (of.agreed_months == 0
                                ? ""
                                : fmt::format(R"("agreed_interval": {{"months": {}, "agreed_with": "works manager"}},)", of.agreed_months)),
                       of.limit_um, of.axis, of.state, of.U_um,
                       of.travel_mm, of.one_run_each ? "" : twice);
}

/// Writes the record of any document that needs no side files.
inline std::filesystem::path write_record_of(const std::string& bytes, const std::filesystem::path& folder, const std::string& job,
                                             int revision) {
    const document::Document document = document::read_document(bytes, "light.json", [](const std::string&) { return std::string(); });
    const std::filesystem::path bag = folder / fmt::format("revision-{}", revision);
    archive::write_bag(
        bag,
        {{{"inputs/wayfolio-result.json", bytes},
          {"evaluation.json", evaluate::evaluation_json(document, evaluate::evaluate(document))}},
         {}},
        {{"External-Identifier", job},
         {"Wayfolio-Revision", std::to_string(revision)},
         {"Wayfolio-Fingerprint", "sha256:" + document.sha256}},
        [](std::string_view) {});
    return bag;
}

/// Writes the record into `folder` (its revision below it).
inline std::filesystem::path write_light_record(const std::filesystem::path& folder, const LightRecord& of) {
    return write_record_of(light_document(of), folder, of.job, of.revision);
}

}  // namespace wayfolio::testing
