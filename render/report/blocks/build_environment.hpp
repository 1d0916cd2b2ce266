#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// The environment page; nothing where the document records neither surroundings nor an axis at rest.
std::optional<Environment> environment(const Subject& subject);

}  // namespace wayfolio::report
