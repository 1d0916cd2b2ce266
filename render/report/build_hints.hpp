#pragma once
#include "report/model.hpp"
#include "report/subject.hpp"

namespace wayfolio::report {

/// What the readings hint at: raised hints with their statistic, p and level, then every test that was made. Hints change no
/// result. No sections where the document switches hints off.
Sections hints(const Subject& subject);

}  // namespace wayfolio::report
