#include "support/samples/sample_set.hpp"

namespace wayfolio::samples {

Json invented_job(const std::string& number, const std::string& title) {
    return {{"number", number},
            {"title", title},
            {"data_notice", "Invented data for demonstration"},
            {"order", "Order " + number + "-A of the customer"},
            {"status", "final"},
            {"customer",
             {{"name", "Sample Customer Works"},
              {"address", {"Hall 2, 1 Example Street", "00000 Sampletown"}},
              {"contact", "Head of maintenance"}}},
            {"laboratory",
             {{"name", "Example Calibration Laboratory"},
              {"address", {"7 Example Lane", "00000 Sampletown"}},
              {"contact", "office@laboratory.example"},
              {"accreditation", "not accredited: an invented laboratory"},
              {"capability", Json::array({{{"error", "EXX"}, {"parameter", "A"}, {"expanded", 0.9}, {"unit", "um"}}})}}},
            {"place", "At the customer's, hall 2, bay 4"}};
}

Json invented_machine(const std::string& kind, Json axes) {
    return {{"vertical", "Z"},         {"kind", kind},           {"maker", "Example Machine Builders"},
            {"model", "Demonstrator"}, {"serial", "D-0007"},     {"controller", "Example control, version 4"},
            {"least_increment_um", 1}, {"axes", std::move(axes)}};
}

Json invented_instruments() {
    return {{{"id", "laser"},
             {"kind", "laser interferometer with straightness and angle optics"},
             {"maker", "Example Instruments"},
             {"model", "Beam six"},
             {"serial", "L-118"},
             {"certificate", "EX-2026-0114"},
             {"calibrated", "2026-01-14"},
             {"due", "2027-01-14"},
             {"expanded_uncertainty",
              {{"positioning", {{"um", 0.1}, {"um_per_m", 0.4}}},
               {"straightness", {{"um", 0.4}, {"um_per_m", 0.1}}},
               {"angle", {{"urad", 0.6}, {"urad_per_m", 0.1}}}}},
             {"coverage_factor", 2}},
            {{"id", "level"},
             {"kind", "pair of electronic levels"},
             {"maker", "Example Instruments"},
             {"model", "Level two"},
             {"serial", "N-052"},
             {"certificate", "EX-2026-0098"},
             {"calibrated", "2026-01-09"},
             {"due", "2027-01-09"},
             {"expanded_uncertainty", {{"angle", {{"urad", 1}, {"urad_per_m", 0}}}}},
             {"coverage_factor", 2}},
            {{"id", "air"},
             {"kind", "air and material temperature station"},
             {"maker", "Example Instruments"},
             {"model", "Station one"},
             {"serial", "S-031"},
             {"certificate", "EX-2026-0101"},
             {"calibrated", "2026-01-10"},
             {"due", "2027-01-10"}}};
}

}  // namespace wayfolio::samples
