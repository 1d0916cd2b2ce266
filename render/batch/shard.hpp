#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::batch {

/// A part of the jobs: number `index`, from 0, of `count`.
struct Shard {
    std::size_t index = 0, count = 1;
    [[nodiscard]] bool whole() const { return count == 1; }
    friend bool operator==(const Shard&, const Shard&) = default;
};

/// By a hash of the name alone: jobs that are added change nothing of where the others belong.
bool belongs(std::string_view name, const Shard& shard);

/// "3/8". Nothing for anything else.
std::optional<Shard> shard_of(std::string_view text);

/// Looks up an environment variable; nullptr where there is none.
using Variables = const char* (*)(const char* name);

/// What Slurm says of a task of a job array: SLURM_ARRAY_TASK_ID, _MIN and _COUNT (sbatch(1)); nothing where it says none, or where the
/// array has a step.
std::optional<Shard> slurm_shard(Variables variable);

/// What Kubernetes says of a pod of an Indexed Job: JOB_COMPLETION_INDEX; how many there are it does not say.
std::optional<Shard> kubernetes_shard(Variables variable, std::size_t count);

}  // namespace wayfolio::batch
