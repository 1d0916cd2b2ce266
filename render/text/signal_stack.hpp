#pragma once
#include <csignal>
#include <cstddef>
#include <memory>

namespace wayfolio::text {

/// Room for the signal handlers of the calling thread, as long as it lives. Where GLib has no memory to say that it has none, it calls
/// itself until the stack of the thread is used up (GLib 2.74, g_log() and what formats for it): whoever handles the signal that then
/// comes can only do so on another stack. A program without such handlers is not touched.
class SignalStack {
public:
    SignalStack();
    ~SignalStack();
    SignalStack(const SignalStack&) = delete;
    SignalStack& operator=(const SignalStack&) = delete;

private:
    std::unique_ptr<std::byte[]> room_;
    stack_t before_{};  ///< what the thread had, which it gets back
};

}  // namespace wayfolio::text
