#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "files/write_file.hpp"
#include "gather/facts/list_facts.hpp"
#include "input/iso_date.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>

namespace wayfolio::commands {
namespace {

namespace fs = std::filesystem;

struct FactsOptions {
    std::string folder, on;
};

/// The files of facts in a folder and its subfolders, by their names below it. Other JSON is passed over.
std::vector<gather::FactsFile> facts_in(const fs::path& folder) {
    input::require_readable_folder(folder);
    std::vector<fs::path> paths;
    std::error_code none;
    for (const auto& entry : fs::recursive_directory_iterator(folder, fs::directory_options::skip_permission_denied))
        if (entry.is_regular_file(none) && entry.path().extension() == ".json") paths.push_back(entry.path());
    std::ranges::sort(paths);
    std::vector<gather::FactsFile> files;
    for (const fs::path& path : paths) {
        gather::FactsFile file = gather::facts_file(path.string());
        file.name = path.lexically_relative(folder).string();
        if (gather::says_facts(file.bytes)) files.push_back(std::move(file));
    }
    return files;
}

ExitCode list_facts(const FactsOptions& options) {
    if (options.folder.empty()) throw UsageError("no folder given: name the one that the files of facts lie in");
    const auto on = input::iso_date(options.on);
    constexpr std::size_t letters = 10;
    if (!options.on.empty() && (!on || options.on.size() != letters))
        throw UsageError(fmt::format("--on {}: not a date; write it as 2026-05-11", options.on));
    const auto files = facts_in(options.folder);
    if (files.empty()) throw input::InputMissing(options.folder, R"(holds no facts: files .json that say "format": "wayfolio-facts")");
    files::write_file("-", gather::facts_listing(files, on));
    return ExitCode::Fine;
}

}  // namespace

void add_facts(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<FactsOptions>();
    CLI::App* verb = program.add_subcommand("facts", "list what is the same from job to job, and which certificates are out of date");
    verb->footer("wayfolio facts sample-results/exports/facts --on 2026-12-20");
    verb->add_option("DIR", options->folder, "folder with files of facts, searched with its subfolders");
    verb->add_option("--on", options->on, "the day to judge certificates by: out of date, or within 30 days")->type_name("DATE");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return list_facts(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
