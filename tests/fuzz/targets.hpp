#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What strangers' bytes may do to the program: end in a result, or in faults that are told. Anything else that is thrown is a finding,
/// and so is what the sanitizers or the clock of the process stop.
namespace wayfolio::fuzz {

struct Target {
    std::string_view name;
    /// Sound inputs to begin from, made by the program itself or taken from the samples.
    std::vector<std::string> (*seeds)();
    /// Gives the bytes to the program. @throws what is a finding
    void (*run)(std::string_view bytes);
};

std::span<const Target> targets();

/// @throws std::invalid_argument
const Target& target_called(std::string_view name);

/// The inputs that once broke a target, from tests/fuzz/corpus/NAME.
std::vector<std::string> corpus_of(const Target& target);

}  // namespace wayfolio::fuzz
