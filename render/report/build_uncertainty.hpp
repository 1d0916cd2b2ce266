#pragma once
#include "report/model.hpp"
#include "report/subject.hpp"

namespace wayfolio::report {

/// The budget of one headline parameter, and the uncertainties of every other parameter. Empty where there is no uncertainty.
Sections uncertainty(const Subject& subject);

}  // namespace wayfolio::report
