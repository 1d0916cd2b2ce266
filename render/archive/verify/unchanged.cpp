#include "archive/verify/unchanged.hpp"

#include "archive/record/bag.hpp"
#include "archive/verify/checks.hpp"
#include "input/read_file.hpp"

#include <algorithm>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;

void reject_changed(const std::string& file, const std::vector<std::string>& changes) {
    std::vector<input::Problem> problems;
    for (const std::string& change : changes)
        problems.push_back({file, {}, change, "every file as it was kept", "\"wayfolio verify\" names all that was changed"});
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
}

/// The faults of a bag that concern what went in: a damaged report is no reason not to draw it again.
std::vector<std::string> faults_of_inputs(const fs::path& bag) {
    std::vector<std::string> faults = bag_faults(bag);
    std::erase_if(faults, [](const std::string& fault) {
        const std::string file = fault.substr(0, fault.find(": "));
        return !file.starts_with("data/inputs/") && file.find("manifest-") == std::string::npos;
    });
    return faults;
}

}  // namespace

namespace {

Making unchanged(const std::string& pdf, const std::string& name, Apart apart) {
    Making making = read_making(carried_files(pdf, name), name, std::move(apart));
    std::vector<std::string> changes = changed_files(making);
    const std::vector<std::string> stated = check_stated_fingerprint(pdf, making).details;
    changes.insert(changes.end(), stated.begin(), stated.end());
    reject_changed(making.file, changes);
    return making;
}

}  // namespace

Making unchanged_from_pdf(const std::string& pdf, const std::string& name) { return unchanged(pdf, name, {}); }

Making unchanged_from(const fs::path& path) {
    std::error_code none;
    if (!fs::is_directory(path, none)) return unchanged(input::read_file(path), path.string(), beside(path.parent_path()));
    input::require_readable_folder(path);
    Making making = kept_from(path);
    std::vector<std::string> changes = changed_files(making);
    const std::vector<std::string> more = faults_of_inputs(making.file);
    changes.insert(changes.end(), more.begin(), more.end());
    reject_changed(making.file, changes);
    return making;
}

}  // namespace wayfolio::archive
