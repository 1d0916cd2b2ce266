#pragma once
#include "support/samples/json_text.hpp"

#include <string>
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

struct SampleFile {
    std::string name;  ///< file name with its ending
    std::string text;
};

/// What stands in sample-results/.
std::vector<SampleFile> shown_samples();
/// Small awkward documents with their side files, for the tests.
std::vector<SampleFile> awkward_samples();
/// Awkward documents too large to keep: made when the tests are built.
std::vector<SampleFile> large_samples();

/// Parts that several samples share.
Json invented_job(const std::string& number, const std::string& title);
Json invented_machine(const std::string& kind, Json axes);
/// Ids: laser (length, straightness and angle), level (roll), air (air and machine sensors).
Json invented_instruments();

}  // namespace wayfolio::samples
