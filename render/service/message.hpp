#pragma once
#include <string>

namespace wayfolio::service {

/// What a client asks, read in full and within the limits. Nothing in it is taken for a place on this machine.
struct Request {
    std::string method, path;  ///< the path without its query
    std::string query, content_type, if_none_match, body;
    std::string key{};  ///< Idempotency-Key: what a client calls a thing that is to be done once
};

struct Answer {
    unsigned status = 200;
    std::string content_type, body;
    std::string etag;        ///< with its quotes; "" where the answer has none
    std::string location{};  ///< path of what was made; "" where nothing was
};

}  // namespace wayfolio::service
