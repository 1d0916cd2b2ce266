#include "text/fatal_messages.hpp"

#include <glib.h>

#include <string_view>

namespace wayfolio::text {

namespace {

/// GLib's own ways to tell it: of g_malloc() (gmem.c), and of a thread that gets no stack (gthread.c).
bool tells_of_memory(const char* message) {
    const std::string_view text(message == nullptr ? "" : message);
    return text.find("failed to allocate") != text.npos || text.find("Error creating thread") != text.npos;
}

void (*end_without_memory)() = nullptr;

void take_message(const char* domain, GLogLevelFlags level, const char* message, void* data) {
    if (tells_of_memory(message)) end_without_memory();
    g_log_default_handler(domain, level, message, data);
}

}  // namespace

void on_memory_used_up(void (*end)()) {
    end_without_memory = end;
    g_log_set_default_handler(take_message, nullptr);
}

}  // namespace wayfolio::text
