#pragma once

namespace wayfolio::text {

/// Calls `end` where GLib has no memory left: all that GLib does by itself then is to end the process by a signal. `end` does not return.
/// For the program only, never for a library.
void on_memory_used_up(void (*end)());

}  // namespace wayfolio::text
