#pragma once
#include "input/byte_source.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <thread>

namespace wayfolio::document {

inline constexpr std::size_t most_samples_of_a_file = 100'000'000;  ///< an hour of a fast recorder

/// One sample as the file writes it.
struct WrittenSample {
    double position, value;
    std::size_t place;  ///< the line, or the row of an array, from 1: of those that are handed on together
};

/// What is wrong in a trace file: at a line and column, or at none (0).
struct TraceFault {
    std::size_t line, column;
    std::string found, expected, hint{};
};

/// Who reads the samples of a trace file, some at a time and in the order of the file, with the faults between them.
struct TraceFileSink {
    std::function<void(std::span<const WrittenSample>, std::size_t places_before)> take;
    std::function<void(TraceFault)> fault;
};

/// How a text is read, which changes nothing of what is read: blocks of it on several threads.
struct TraceReadingBy {
    /// More would wait for who takes the samples, and each holds some.
    std::size_t threads = std::clamp(std::thread::hardware_concurrency(), 1U, 4U);
    std::size_t block_size = std::size_t{128} << 10;  ///< by choice: with its samples it lies in a processor's own memory
};

/// The samples of a trace file: two columns, position and value, separated by comma, semicolon, tab or space, with an optional header
/// line; or an array of NumPy's format .npy. What is held does not grow with the file. The sink is called by the caller's thread alone.
/// @throws input::InputMissing as the source
void read_trace_file(const input::ByteSource& source, const TraceFileSink& sink, const TraceReadingBy& by = {});

/// Whether places are rows of an array, not lines of a text.
bool is_npy(const input::ByteSource& source);

}  // namespace wayfolio::document
