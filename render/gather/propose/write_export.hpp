#pragma once
#include "gather/draft/node.hpp"
#include "gather/propose/roles.hpp"

namespace wayfolio::gather {

/// What a mapping says of an export, by the roles of its columns; what nobody says is an open place.
/// @param pattern the names that it is for
/// @param series gets those that its readings go into
Node written_export(const LookedAt& seen, const std::vector<Role>& roles, const std::string& pattern, Node& series);

}  // namespace wayfolio::gather
