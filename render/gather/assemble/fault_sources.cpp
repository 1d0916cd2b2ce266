#include "gather/assemble/assembly.hpp"

#include <fmt/format.h>
#include <charconv>

namespace wayfolio::gather {
namespace {

/// Takes "/12" or "/name" off the front of a JSON Pointer.
std::string_view take_step(std::string_view& pointer) {
    if (pointer.empty()) return {};
    const std::size_t end = pointer.find('/', 1);
    const std::string_view step = pointer.substr(1, end == std::string_view::npos ? end : end - 1);
    pointer = end == std::string_view::npos ? std::string_view() : pointer.substr(end);
    return step;
}

std::optional<std::size_t> step_number(std::string_view step) {
    std::size_t number = 0;
    const auto [end, failure] = std::from_chars(step.data(), step.data() + step.size(), number);
    return failure == std::errc() && end == step.data() + step.size() && !step.empty() ? std::optional(number) : std::nullopt;
}

const FilledSeries* filled_at(const Assembly& assembly, std::optional<std::size_t> place) {
    for (const FilledSeries& filled : assembly.filled)
        if (filled.place == place) return &filled;
    return nullptr;
}

/// A reading that the document refuses stands in an export.
bool move_to_export(input::Problem& problem, std::string_view pointer, const FilledSeries& filled, const Circumstances& at) {
    if (take_step(pointer) != "runs") return false;
    const auto run = step_number(take_step(pointer));
    if (take_step(pointer) != "deviations" || !run || *run >= filled.runs.size()) return false;
    const auto target = step_number(take_step(pointer));
    const std::size_t first = filled.from->mapping().steps ? 1 : 0;
    if (!target || *target + first >= filled.targets.size()) return false;
    const CollectedRun& collected = filled.from->runs()[filled.runs[*run]];
    const std::size_t place = filled.targets[*target + first];
    if (place >= collected.readings.size() || collected.readings[place].line == 0) return false;
    const KeptReading& kept = collected.readings[place];
    problem.file = at.files[kept.file].name;
    problem.place = {kept.line, 1, {}};
    return true;
}

void move_to_source(input::Problem& problem, const Assembly& assembly, const Circumstances& at) {
    std::string_view pointer = problem.place.pointer;
    if (const Source* const facts = source_of(assembly.from_facts, pointer)) {
        problem.file = facts->file;
        problem.place = facts->place;
        return;
    }
    if (take_step(pointer) != "series") return;
    const FilledSeries* const filled = filled_at(assembly, step_number(take_step(pointer)));
    if (filled == nullptr || move_to_export(problem, pointer, *filled, at)) return;
    const SeriesMapping& mapping = filled->from->mapping();
    const std::string rest(pointer);  // its text goes with the place
    const std::string key(take_step(pointer));
    if (mapping.members.member(key) == nullptr && !key.empty()) return;
    problem.file = at.request.mapping_file;
    problem.place = mapping.place;
    problem.place.pointer += rest;
}

}  // namespace

std::vector<input::Problem> at_their_sources(std::vector<input::Problem> problems, const Assembly& assembly, const Circumstances& at) {
    for (input::Problem& problem : problems) {
        const bool of_new_document = !at.request.into;
        const std::string file = problem.file;
        move_to_source(problem, assembly, at);
        // The document's own lines are not written anywhere yet.
        if (problem.file == file && of_new_document) problem.place = {0, 0, problem.place.pointer};
    }
    return problems;
}

}  // namespace wayfolio::gather
