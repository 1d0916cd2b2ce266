#include "text/signal_stack.hpp"

namespace wayfolio::text {

namespace {
constexpr std::size_t size_of_room = std::size_t{64} << 10;
}

SignalStack::SignalStack() : room_(std::make_unique<std::byte[]>(size_of_room)) {
    stack_t stack{};
    stack.ss_sp = room_.get();
    stack.ss_size = size_of_room;
    sigaltstack(&stack, &before_);
}

SignalStack::~SignalStack() {
    sigaltstack(&before_, nullptr);
}

}  // namespace wayfolio::text
