#pragma once
#include <exception>
#include <string>

namespace wayfolio::files {

/// The world failed: disk, permission, a library that draws.
class OutputFailed : public std::exception {
public:
    OutputFailed(std::string path, std::string reason, bool cannot_create);
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
    [[nodiscard]] bool cannot_create() const { return cannot_create_; }  ///< exit 73 rather than 74

private:
    std::string text_;
    bool cannot_create_;
};

}  // namespace wayfolio::files
