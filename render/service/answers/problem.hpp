#pragma once
#include "input/problem.hpp"
#include "service/message.hpp"

#include <exception>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What did not work, as RFC 9457 has it (application/problem+json).
namespace wayfolio::service {

/// A kind of problem; its code never changes its meaning.
struct ProblemKind {
    std::string_view code;
    unsigned status;
    std::string_view title;
};

namespace problems {
inline constexpr ProblemKind malformed{"malformed-request", 400, "The request is not what HTTP or its content type ask for"},
    unknown_option{"unknown-option", 400, "The query asks for what this route has not"},
    no_token{"token-wanted", 401, "A token is needed: Authorization: Bearer TOKEN"},
    foreign{"foreign-origin", 403, "The request was made by a page of another site"},
    no_route{"no-such-route", 404, "There is nothing at this path"},
    nothing_there{"nothing-there", 404, "There is nothing of that name"},
    no_records{"no-records", 404, "This service keeps no records"},
    no_batches{"no-batches", 404, "This service takes no batches"},
    wrong_method{"wrong-method", 405, "The path is there, but not for this method"},
    slow{"too-slow", 408, "The request did not come in time"},
    record_changed{"record-changed", 409, "The record is not as it was filed"},
    too_large{"too-large", 413, "The body is larger than it may be"},
    wrong_type{"wrong-content-type", 415, "The body is of a type that this route does not take"},
    faulty{"faulty-input", 422, "The input has faults"}, key_used{"key-used", 422, "This Idempotency-Key was used for something else"},
    head_too_large{"head-too-large", 431, "The head is larger than it may be"},
    busy{"busy", 429, "All workers are at work, and as many jobs wait as may"},
    too_many_connections{"too-many-connections", 429, "This client has as many connections as it may"},
    failed{"failed", 500, "A fault of the service; please report it"},
    no_memory{"not-enough-memory", 507, "The job needs more memory than a job may have"},
    not_kept{"not-kept", 503, "What has to be kept could not be written; nothing was changed"},
    late{"deadline-passed", 503, "The job was not done in its time"}, closing{"closing", 503, "The service is being closed"};
}  // namespace problems

/// All of them, in the order of their status.
std::span<const ProblemKind> problem_kinds();

/// @param detail what is particular to this request; may be empty
/// @param faults of an input, each with its place
Answer problem(const ProblemKind& kind, std::string_view detail = "", const std::vector<input::Problem>& faults = {});

/// Thrown while an answer is made: the request cannot be answered as it stands.
class Refused : public std::exception {
public:
    Refused(const ProblemKind& kind, std::string detail) : kind_(kind), detail_(std::move(detail)) {}
    [[nodiscard]] const ProblemKind& kind() const { return kind_; }
    [[nodiscard]] const char* what() const noexcept override { return detail_.c_str(); }

private:
    ProblemKind kind_;
    std::string detail_;
};

/// The answer to whatever was thrown while one was made: the service's only place that knows all kinds.
Answer problem_of(std::exception_ptr thrown);

}  // namespace wayfolio::service
