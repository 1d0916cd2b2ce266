#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// What the readings hint at: raised hints with their statistic, p and level, then every test that was made. Hints change no
/// result. No sections where the document switches hints off.
Sections hints(const Subject& subject);

}  // namespace wayfolio::report
