#pragma once
#include "files/write_file.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::files {

/// A file or folder that is being made beside its target, as ".NAME.part-PROCESS-N": moved into place when it is whole, gone otherwise.
/// Nobody sees half of it under the target's name, not even after a crash or a loss of power.
class Unfinished {
public:
    enum class Kind { File, Folder };

    /// An empty one, in the folder of the target, which must be there.
    /// @param left_over what killed runs left of the same target: it is looked for, and removed, where it is not gone already
    /// @throws OutputFailed when it cannot be made
    Unfinished(std::filesystem::path target, Kind kind, LeftOver left_over = LeftOver::Sought);
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

/// Removes what killed runs left in a folder of targets with such names: at once for all, where many are going to be made, since looking
/// for what was left of each reads the whole folder.
void remove_left_over(const std::filesystem::path& folder, const std::function<bool(const std::string& target)>& is_one);

/// The target's name, of a name that an unfinished file or folder (or a companion, such as a journal) has; none for other names.
std::optional<std::string> unfinished_target(std::string_view name);

}  // namespace wayfolio::files
