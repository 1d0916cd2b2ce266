#include "batch/shard.hpp"

#include "input/digest.hpp"

#include <charconv>

namespace wayfolio::batch {
namespace {

std::optional<std::size_t> number(std::string_view text) {
    std::size_t value = 0;
    const char* const end = text.data() + text.size();
    const auto [read, error] = std::from_chars(text.data(), end, value);
    return error == std::errc() && read == end && !text.empty() ? std::optional(value) : std::nullopt;
}

std::optional<std::size_t> number(const char* text) { return text == nullptr ? std::nullopt : number(std::string_view(text)); }

std::optional<Shard> checked(std::optional<std::size_t> index, std::optional<std::size_t> count) {
    if (!index || !count || *count == 0 || *index >= *count) return std::nullopt;
    return Shard{*index, *count};
}

}  // namespace

bool belongs(std::string_view name, const Shard& shard) {
    if (shard.whole()) return true;
    constexpr int digits = 15, hexadecimal = 16;  // of SHA-256: 60 bits
    const std::string digest = input::sha256_hex(name);
    std::size_t value = 0;
    std::from_chars(digest.data(), digest.data() + digits, value, hexadecimal);
    return value % shard.count == shard.index;
}

std::optional<Shard> shard_of(std::string_view text) {
    const std::size_t slash = text.find('/');
    return slash == text.npos ? std::nullopt : checked(number(text.substr(0, slash)), number(text.substr(slash + 1)));
}

std::optional<Shard> slurm_shard(Variables variable) {
    const auto id = number(variable("SLURM_ARRAY_TASK_ID")), least = number(variable("SLURM_ARRAY_TASK_MIN"));
    if (!id || !least || *id < *least) return std::nullopt;
    return checked(*id - *least, number(variable("SLURM_ARRAY_TASK_COUNT")));
}

std::optional<Shard> kubernetes_shard(Variables variable, std::size_t count) {
    return checked(number(variable("JOB_COMPLETION_INDEX")), count);
}

}  // namespace wayfolio::batch
