#pragma once
#include "report/model.hpp"
#include "report/subject.hpp"

namespace wayfolio::report {

/// The environment page; nothing where the document records neither surroundings nor an axis at rest.
std::optional<Environment> environment(const Subject& subject);

}  // namespace wayfolio::report
