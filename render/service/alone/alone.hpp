#pragma once

namespace wayfolio::service {

/// Waits until this process has no thread but the caller's, as it has to be before it is forked; not longer than some seconds.
/// Trap: fonts are opened by a thread, and Pango looks for them by some of its own (pangofc-fontmap.c). One whose result is there may still
/// be ending, and a lock that it holds at the fork is held in the child for ever. Where /proc is not to be had nobody is waited for.
void wait_until_alone();

}  // namespace wayfolio::service
