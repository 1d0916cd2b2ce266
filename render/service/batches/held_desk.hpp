#pragma once
#include <filesystem>

namespace wayfolio::service {

/// A file of batches that is one service's alone, for as long as this lives; what was at work in it when the last one ended waits again.
class HeldDesk {
public:
    /// To be called before anything is forked. @throws files::OutputFailed where the file cannot be had, or is none of ours; CannotServe
    /// where another service has it
    explicit HeldDesk(const std::filesystem::path& file);
    ~HeldDesk();
    HeldDesk(const HeldDesk&) = delete;
    HeldDesk& operator=(const HeldDesk&) = delete;

private:
    int lock_ = -1;
};

}  // namespace wayfolio::service
