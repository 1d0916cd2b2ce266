#pragma once
#include <filesystem>
#include <map>
#include <string>

namespace wayfolio::service {

/// A document of this machine as it stands now, and what it names beside itself.
struct Shown {
    std::string name, document;
    std::map<std::string, std::string> files;
    std::string title;   ///< of its job
    bool sound = false;  ///< else its faults are for /v1/check to tell
};

/// @throws input::InputMissing, also where it is no file, and for a side file that is not there
Shown shown_at(const std::filesystem::path& path);

}  // namespace wayfolio::service
