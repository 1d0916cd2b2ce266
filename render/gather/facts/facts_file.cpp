#include "gather/facts/facts.hpp"
#include "input/read_file.hpp"

#include <filesystem>

namespace wayfolio::gather {

FactsFile facts_file(const std::string& path) {
    const std::filesystem::path file(path);
    return {.name = file.filename().string(),
            .path = path,
            .bytes = input::read_file(file),
            .read_side_file = [folder = file.parent_path()](const std::string& name) { return input::read_file_beside(folder, name); }};
}

}  // namespace wayfolio::gather
