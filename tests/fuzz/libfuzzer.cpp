#include "fuzz/targets.hpp"

#include <cstdint>
#include <cstdlib>

/// For libFuzzer, where clang is: the target that the environment variable WAYFOLIO_FUZZ_TARGET names.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto& target = wayfolio::fuzz::target_called(std::getenv("WAYFOLIO_FUZZ_TARGET"));
    target.run({reinterpret_cast<const char*>(data), size});
    return 0;
}
