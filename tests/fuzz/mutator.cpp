#include "fuzz/mutator.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace wayfolio::fuzz {
namespace {

constexpr std::size_t longest = 1'000'000;

constexpr std::array<std::string_view, 26> words{
    "0",    "-0", "-1", "1e308", "-1e308",  "1e-308", "5e-324", "1e13",         "1296000", "1000.0000000000001", "1e400",  "null",   "true",
    "\"\"", "[]", "{}", "[[[[[", "\\ud800", "\xff",   "\u201c", "\xEF\xBB\xBF", "\n",      "2147483648",         "endobj", "stream", "R"};

/// Where a number stands at or behind `from`; an empty span where none does.
std::pair<std::size_t, std::size_t> number_behind(const std::string& bytes, std::size_t from) {
    constexpr std::string_view digits = "0123456789", in_numbers = "0123456789.eE+-";
    const std::size_t start = std::min(bytes.find_first_of(digits, from), bytes.size());
    return {start, std::min(bytes.find_first_not_of(in_numbers, start), bytes.size())};
}

/// Where the value in brackets, braces or quotes that begins at or behind `from` ends: a span that can be taken out whole.
std::pair<std::size_t, std::size_t> value_behind(const std::string& bytes, std::size_t from) {
    const std::size_t start = bytes.find_first_of("[{\"", from);
    if (start == std::string::npos) return {bytes.size(), bytes.size()};
    if (bytes[start] == '"') return {start, std::min(bytes.find('"', start + 1), bytes.size() - 1) + 1};
    int depth = 0;
    for (std::size_t at = start; at < bytes.size(); ++at) {
        if (bytes[at] == '[' || bytes[at] == '{') ++depth;
        if ((bytes[at] == ']' || bytes[at] == '}') && --depth == 0) return {start, at + 1};
    }
    return {start, bytes.size()};
}

}  // namespace

void Mutator::change(std::string& bytes, const std::vector<std::string>& inputs) {
    const std::size_t at = below(bytes.size());
    const std::string_view word = words[below(words.size())];
    const auto [number, number_end] = number_behind(bytes, at);
    const auto [value, value_end] = value_behind(bytes, at);
    switch (below(9)) {
        case 0:
            if (!bytes.empty()) bytes[at] = static_cast<char>(bytes[at] ^ (1 << below(8)));
            break;
        case 1: bytes.erase(at, 1 + below(16)); break;
        case 2: bytes.insert(at, word); break;
        case 3: bytes.replace(number, number_end - number, word); break;
        case 4: bytes.replace(value, value_end - value, word); break;
        case 5: bytes.insert(value, bytes.substr(value, value_end - value) + ","); break;
        case 6: bytes.erase(value, value_end - value); break;
        case 7: {
            const std::string& other = inputs[below(inputs.size())];
            const std::size_t from = below(other.size());
            bytes.insert(at, other.substr(from, below(256)));
            break;
        }
        default: {
            // A number a little or much larger: another digit, another sign.
            if (number < bytes.size()) bytes.insert(number, std::string(1, "-0123456789"[below(11)]));
            break;
        }
    }
    if (bytes.size() > longest) bytes.resize(longest);
}

std::string Mutator::mutated(std::string input, const std::vector<std::string>& inputs) {
    for (std::size_t times = 1 + below(4); times > 0; --times) change(input, inputs);
    return input;
}

}  // namespace wayfolio::fuzz
