#include "files/output_failed.hpp"

#include "input/encoding.hpp"

#include <utility>

namespace wayfolio::files {

OutputFailed::OutputFailed(std::string path, std::string reason, bool cannot_create)
    : text_(input::printable(std::move(path) + ": " + std::move(reason))), cannot_create_(cannot_create) {}

}  // namespace wayfolio::files
