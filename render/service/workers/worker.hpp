#pragma once
#include "service/answers/routes.hpp"

namespace wayfolio::service {

/// A process of its own for the jobs of strangers: it answers what comes through a socket until that is closed, in an address space that
/// is bounded, without a way to more rights, and it ends with the process that made it.
struct Worker {
    int process = 0;
    int socket = -1;  ///< this end; whoever takes it closes it
};

/// Forks, once no other thread of this process is ending. To be called where it has none that goes on, and its shaper has opened its fonts.
/// @throws std::system_error
Worker begin_worker(const Workshop& workshop);

/// Ends a worker at once, whatever it does, and waits until it has.
void end_worker(const Worker& worker);

}  // namespace wayfolio::service
