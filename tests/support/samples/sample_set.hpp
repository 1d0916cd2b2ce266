#pragma once
#include "support/samples/json_text.hpp"

#include <string>
#include <utility>
#include <vector>

/// The documents of sample-results/ and the awkward ones of the tests. All people, firms, places and readings are invented
/// (the one published set says so itself); the same bytes come out on every machine.
namespace wayfolio::samples {

Json short_axis();
Json long_axis();
Json rotary_axis();
Json two_axes();
Json published_anova();
Json smallest();

/// Five earlier yearly visits to the machine of the short axis, each named by its day: "2021-05-17".
std::vector<std::pair<std::string, Json>> earlier_visits();

struct SampleFile {
    std::string name;  ///< path below the folder of the samples
    std::string text;
};

/// What stands in sample-results/.
std::vector<SampleFile> shown_samples();
/// Small awkward documents with their side files, for the tests.
std::vector<SampleFile> awkward_samples();
/// Awkward documents too large to keep: made when the tests are built.
std::vector<SampleFile> large_samples();

/// Parts that several samples share.
struct Site {
    std::string customer, street, town, place;
};
Json invented_job(const std::string& number, const std::string& title, const Site& site);

struct Nameplate {
    std::string kind, model, serial;
};
Json invented_machine(const Nameplate& nameplate, Json axes);

struct Certified {
    std::string id, kind, model, serial;
    int day;  ///< of January, when it was calibrated
};
Json invented_instrument(const Certified& instrument, Json expanded_uncertainty, int year = 2026);
/// Ids: laser (length, straightness and angle), level (roll), air (air and machine sensors).
Json invented_instruments(int year = 2026);

}  // namespace wayfolio::samples
