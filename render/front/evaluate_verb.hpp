#pragma once
#include "front/command.hpp"

namespace CLI {
class App;
}

namespace wayfolio::front {

/// Adds the verb that writes every evaluated number; when it is given, it sets `chosen`.
void add_evaluate(CLI::App& program, Command& chosen);

}  // namespace wayfolio::front
