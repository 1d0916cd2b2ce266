#pragma once
#include "document/document.hpp"

namespace wayfolio::evaluate {

/// A record with the machine at rest: environmental variation error E_VE = largest less smallest reading
/// [definition from memory, ISO/TR 230-9:2005 Annex C], which counts when the record is at least as long as the test.
struct DriftEvaluation {
    std::string axis, quantity;
    double at_mm = 0;
    double um = 0;                       ///< E_VE
    double standard_um = 0;              ///< of one reading: E_VE / (2 sqrt 3)
    std::optional<double> minutes;       ///< length of the record, where its times can be read
    std::optional<double> test_minutes;  ///< from the first start to the last end of the runs of that error
    std::optional<bool> covers_test;
};

/// One entry per record of at least two readings, in the document's order.
std::vector<DriftEvaluation> evaluate_drift(const document::Document& document);

}  // namespace wayfolio::evaluate
