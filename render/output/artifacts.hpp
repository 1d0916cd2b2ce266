#pragma once
#include "output/qpdf.hpp"

namespace wayfolio::output {

/// Takes an artifact's element out of the structure tree and out of the parent tree.
void drop_artifact(QPDF& file, Handle element);
/// Names the artifacts' marked content in every page as what it is.
void name_artifacts(QPDF& file);

}  // namespace wayfolio::output
