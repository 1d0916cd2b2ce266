#include "support/samples/sample_set.hpp"
namespace wayfolio::samples {
std::vector<SampleFile> awkward_samples() { return {}; }
std::vector<SampleFile> large_samples() { return {}; }
}
