#include "output/output.hpp"

namespace wayfolio::output {

OutputFailed::OutputFailed(std::string path, std::string reason, bool cannot_create)
    : text_(std::move(path) + ": " + std::move(reason)), cannot_create_(cannot_create) {}

}  // namespace wayfolio::output
