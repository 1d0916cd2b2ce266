#pragma once
#include <chrono>
#include <cstddef>

namespace wayfolio::service {

/// What one client may take of the service. By choice, no source: generous for a report of a long axis (40 kB in, a second of drawing).
struct Limits {
    std::size_t head_bytes = 16 << 10;
    std::chrono::seconds head_time{10};  ///< for a whole head; as long does a kept connection wait for the next one
    std::size_t body_bytes = std::size_t{32} << 20;
    std::size_t body_bytes_in_all = std::size_t{256} << 20;  ///< of all requests that are being read or answered
    std::size_t least_body_rate = 16 << 10;  ///< bytes a second, after a grace of head_time
    std::size_t connections = 256, connections_of_one_client = 64;
    std::size_t requests_of_one_connection = 1000;
    std::size_t workers = 2;
    std::size_t waiting = 8;            ///< jobs that wait for a worker; one more is refused
    std::chrono::seconds deadline{30};  ///< for a job, its waiting included
    std::chrono::seconds retry_after{2};
    std::size_t worker_memory = std::size_t{1} << 30;  ///< address space of a worker
    std::size_t jobs_of_one_worker = 1000;             ///< then another takes its place
    std::size_t parts = 64;                            ///< of a multipart body
    std::size_t parts_of_a_batch = 4096;
    std::size_t waiting_in_batches = 20'000;           ///< jobs; a batch with which there would be more is refused
    std::size_t kept_file = std::size_t{1} << 30;      ///< largest file that a worker may write: an index, batches with their results
};

}  // namespace wayfolio::service
