#include "support/samples/sample_set.hpp"

namespace wayfolio::samples {

Json invented_job(const std::string& number, const std::string& title, const Site& site) {
    return {{"number", number},
            {"title", title},
            {"data_notice", "Invented data for demonstration"},
            {"order", "Order " + number + "-A of the customer"},
            {"status", "final"},
            {"customer", {{"name", site.customer}, {"address", {site.street, site.town}}, {"contact", "Head of maintenance"}}},
            {"laboratory",
             {{"name", "Example Calibration Laboratory"},
              {"address", {"7 Example Lane", "00000 Sampletown"}},
              {"contact", "office@laboratory.example"},
              {"accreditation", "not accredited: an invented laboratory"},
              {"capability", Json::array({{{"error", "EXX"}, {"parameter", "A"}, {"expanded", 0.9}, {"unit", "um"}}})}}},
            {"place", site.place}};
}

Json invented_machine(const Nameplate& nameplate, Json axes) {
    return {{"vertical", "Z"},
            {"kind", nameplate.kind},
            {"maker", "Example Machine Builders"},
            {"model", nameplate.model},
            {"serial", nameplate.serial},
            {"controller", "Example control, version 4"},
            {"condition", "in use, ways and covers without visible damage"},
            {"least_increment_um", 1},
            {"axes", std::move(axes)}};
}

Json invented_instrument(const Certified& one, Json expanded_uncertainty, int year) {
    const std::string in_january = (one.day < 10 ? "-01-0" : "-01-") + std::to_string(one.day);
    Json instrument{{"id", one.id},
                    {"kind", one.kind},
                    {"maker", "Example Instruments"},
                    {"model", one.model},
                    {"serial", one.serial},
                    {"certificate", "EX-" + std::to_string(year) + (one.day < 10 ? "-010" : "-01") + std::to_string(one.day)},
                    {"certified_by", "Example Standards Laboratory"},
                    {"calibrated", std::to_string(year) + in_january},
                    {"due", std::to_string(year + 1) + in_january},
                    {"traceable_to", "the SI, through the national standards of Exampleland"}};
    if (one.kind.find("interferometer") != std::string::npos) instrument["vacuum_wavelength_nm"] = 632.9912;
    if (!expanded_uncertainty.empty()) {
        instrument["expanded_uncertainty"] = std::move(expanded_uncertainty);
        instrument["coverage_factor"] = 2;
    }
    return instrument;
}

Json invented_instruments(int year) {
    return {invented_instrument({"laser", "laser interferometer with straightness and angle optics", "Laser one", "L-118", 14},
                                {{"positioning", {{"um", 0.1}, {"um_per_m", 0.4}}},
                                 {"straightness", {{"um", 0.4}, {"um_per_m", 0.1}}},
                                 {"angle", {{"urad", 0.6}, {"urad_per_m", 0.1}}}},
                                year),
            invented_instrument({"level", "pair of electronic levels", "Level one", "N-052", 9},
                                {{"angle", {{"urad", 1}, {"urad_per_m", 0}}}}, year),
            invented_instrument({"air", "air and material temperature station", "Station one", "S-031", 10}, Json::object(), year)};
}

}  // namespace wayfolio::samples
