#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::output {

/// A file or folder that is being made beside its target, as ".NAME.part-PROCESS-N": moved into place when it is whole, gone otherwise.
/// Nobody sees half of it under the target's name, not even after a crash or a loss of power.
class Unfinished {
public:
    enum class Kind { File, Folder };

    /// An empty one, in the folder of the target, which must be there; what killed runs left of the same target is removed.
    /// @throws OutputFailed when it cannot be made
    Unfinished(std::filesystem::path target, Kind kind);
    ~Unfinished();
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;

    /// Where to make it; what is made must be closed before it is moved.
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

    /// Brings all of it to the disk and moves it onto the target. A file replaces a file and takes over its permissions; a folder replaces
    /// nothing but an empty one, so that of two writers the second fails.
    /// @throws OutputFailed
    void move_into_place();

private:
    std::filesystem::path target_, path_;
    Kind kind_;
    int lock_ = -1;  ///< held while it is being made: what bears such a name and is locked by nobody was left by a killed run
};

/// The target's name, of a name that an unfinished file or folder (or a companion, such as a journal) has; none for other names.
std::optional<std::string> unfinished_target(std::string_view name);

}  // namespace wayfolio::output
