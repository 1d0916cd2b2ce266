#pragma once
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace wayfolio::fuzz {

/// Changes of an input at random, always the same from one seed: bits, spans that go, come twice or come from another input, and what texts
/// like JSON break by (numbers of every size, nothing, nesting, other types).
class Mutator {
public:
    explicit Mutator(std::uint64_t seed) : random_(seed) {}
    /// One to four changes. @param inputs from which spans are taken
    std::string mutated(std::string input, const std::vector<std::string>& inputs);

private:
    void change(std::string& bytes, const std::vector<std::string>& inputs);
    std::size_t below(std::size_t end) { return end == 0 ? 0 : std::uniform_int_distribution<std::size_t>(0, end - 1)(random_); }
    std::mt19937_64 random_;
};

}  // namespace wayfolio::fuzz
