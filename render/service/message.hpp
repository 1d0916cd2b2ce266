#pragma once
#include <string>

namespace wayfolio::service {

/// What a client asks, read in full and within the limits. Nothing in it is taken for a place on this machine.
struct Request {
    std::string method, path;  ///< the path without its query
    std::string query, content_type, if_none_match, body;
    std::string key{};  ///< Idempotency-Key: what a client calls a thing that is to be done once
    std::string errand{};  ///< what the server itself asks of a worker; no client can ask it
};

/// What the server asks of those who draw batches; `path` is then the name under which a job is taken.
namespace errands {
inline constexpr const char *draw = "draw",  ///< the next job, or nothing_to_do
    *wait_again = "wait again", *fail = "fail";  ///< what became of a job that was taken and not finished; `body` says why
inline constexpr unsigned done = 200, nothing_to_do = 204;
}  // namespace errands

struct Answer {
    unsigned status = 200;
    std::string content_type, body;
    std::string etag;        ///< with its quotes; "" where the answer has none
    std::string location{};  ///< path of what was made; "" where nothing was
};

}  // namespace wayfolio::service
