#pragma once
#include "archive/record/making.hpp"
#include "compare/comparison.hpp"
#include "service/answers/routes.hpp"

/// What is answered alike for what came with a call and for what was kept.
namespace wayfolio::service {

/// The PDF drawn again, with the layout that came or that the query names, else the one that was used.
Answer redrawn(const archive::Making& making, const Call& call, const Workshop& workshop);

/// Which states the query sets beside each other.
compare::Beside beside_in(const Call& call);

/// What differs, with what moved it.
Answer compared(const compare::Side& was, const compare::Side& now, const Call& call);

}  // namespace wayfolio::service
