#include "units/version.hpp"

namespace wayfolio {

std::string_view version() { return WAYFOLIO_VERSION; }

}  // namespace wayfolio
