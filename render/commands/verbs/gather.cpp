#include "gather/gather.hpp"
#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "commands/outputs.hpp"
#include "document/read_document.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "files/write_file.hpp"
#include "gather/propose/propose.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <algorithm>
#include <memory>

namespace wayfolio::commands {

namespace {

namespace fs = std::filesystem;

struct GatherOptions {
    std::vector<std::string> exports, facts, replace;
    std::string mapping, output, into, state;
    bool keep = false, propose = false;
};

/// The exports that were named, one by one or by their folder.
struct Exports {
    std::vector<gather::ExportFile> files;
    std::vector<std::string> named;  ///< names of those that were given one by one
    FilesRead read;
};

Exports exports_of(const std::vector<std::string>& paths, const FilesRead& others) {
    Exports exports;
    const auto is_other = [&](const fs::path& path) {
        std::error_code none;
        return std::ranges::any_of(others, [&](const fs::path& other) { return fs::equivalent(path, other, none); });
    };
    const auto add = [&](const fs::path& path) {
        exports.files.push_back(gather::export_file(path.string()));
        exports.read.push_back(path);
    };
    for (const std::string& path : paths) {
        std::error_code none;
        if (!fs::is_directory(path, none)) {
            add(path);
            exports.named.push_back(exports.files.back().name);
            continue;
        }
        input::require_readable_folder(path);
        for (const auto& entry : fs::directory_iterator(path))
            if (entry.is_regular_file(none) && !entry.path().filename().string().starts_with(".") && !is_other(entry.path()))
                add(entry.path());
    }
    if (exports.files.empty()) throw UsageError("no exports given: name files, or the folder that they lie in");
    return exports;
}

/// Two exports of one name could not be told apart in the document.
void require_names_once(const Exports& exports) {
    std::vector<std::string_view> names;
    for (const gather::ExportFile& file : exports.files) names.push_back(file.name);
    std::ranges::sort(names);
    if (const auto twice = std::ranges::adjacent_find(names); twice != names.end())
        throw UsageError(fmt::format("two exports are called {}: gather them one after the other, the second with --into", *twice));
}

/// A file that was named by hand and that the mapping does not know is most likely misspelt in one of the two.
void require_all_named_read(const Exports& exports, const gather::Account& account, const std::string& mapping) {
    std::vector<input::Problem> problems;
    for (const std::string& name : exports.named)
        if (std::ranges::find(account.not_read, name) != account.not_read.end())
            problems.push_back({mapping, {0, 0, "/exports"}, "no part for the export " + name, "a part whose \"file\" is that name", {}});
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
}

/// The files beside a document that is written: none replaces another one.
class SideFiles {
public:
    SideFiles(const std::string& output, const document::Document& document) : large_(large_files_of(document)) {
        add(output, document.side_files);
        add(output, large_);
    }
    ~SideFiles() {
        std::error_code none;
        if (!kept_)
            for (const fs::path& path : made_) fs::remove(path, none);
    }
    SideFiles(const SideFiles&) = delete;
    SideFiles& operator=(const SideFiles&) = delete;

    void write() {
        for (const auto& [path, file] : waiting_) {
            files::write_file(path, file->bytes);
            made_.push_back(path);
        }
    }
    void keep() { kept_ = true; }

private:
    /// Those that the document knows by their digest, with their bytes.
    static std::vector<document::SideFile> large_files_of(const document::Document& document) {
        std::vector<document::SideFile> all;
        for (const document::LargeSideFile& file : document.large_side_files) {
            document::SideFile& large = all.emplace_back(document::SideFile{file.name, ""});
            input::read_in_pieces(file.source, [&](std::string_view piece) { large.bytes += piece; });
        }
        return all;
    }
    void add(const std::string& output, const std::vector<document::SideFile>& files) {
        if (files.empty()) return;
        if (output == "-") throw UsageError("side files lie beside the document: give -o FILE");
        for (const document::SideFile& file : files) {
            const fs::path path = fs::path(output).parent_path() / file.name;
            std::error_code none;
            if (fs::exists(path, none)) {
                if (input::read_file(path) != file.bytes)
                    throw UsageError(fmt::format("{} is there and holds something else: it is not replaced", path.string()));
                continue;
            }
            waiting_.emplace_back(path, &file);
        }
    }

    std::vector<document::SideFile> large_;
    std::vector<std::pair<fs::path, const document::SideFile*>> waiting_;
    std::vector<fs::path> made_;
    bool kept_ = false;
};

/// The gathered document, with all side files: new ones, and those of the document that it was added to.
document::Document read_gathered(const gather::Gathered& gathered, const gather::GatherRequest& request, const std::string& name) {
    return document::read_document(gathered.document, name, [&](const std::string& wanted) {
        for (const document::SideFile& file : gathered.side_files)
            if (file.name == wanted) return file.bytes;
        return request.read_side_file(wanted);
    });
}

ExitCode gather_exports(const GatherOptions& options) {
    if (options.mapping.empty()) throw UsageError("no mapping given: give MAPPING.json and the exports");
    FilesRead read{options.mapping};
    if (!options.into.empty()) read.emplace_back(options.into);
    read.insert(read.end(), options.facts.begin(), options.facts.end());
    const Exports exports = exports_of(options.exports, read);
    require_names_once(exports);
    read.insert(read.end(), exports.read.begin(), exports.read.end());
    require_output(options.output, read);
    const std::string mapping = input::read_file(options.mapping);
    const fs::path mapping_folder = fs::path(options.mapping).parent_path();
    const fs::path folder = options.into == "-" ? fs::path() : fs::path(options.into).parent_path();
    gather::GatherRequest request{
        .mapping = mapping,
        .mapping_file = fs::path(options.mapping).filename().string(),
        .exports = exports.files,
        .read_facts = [&](const std::string& name) { return gather::facts_file((mapping_folder / name).string()); },
        .state = options.state,
        .replace = options.replace,
        .keep = options.keep,
        .read_side_file = [folder](const std::string& name) { return input::read_file_beside(folder, name); }};
    for (const std::string& file : options.facts) request.facts.push_back(gather::facts_file(file));
    if (!options.into.empty()) request.into = gather::Existing{input::read_file(options.into), options.into};
    const gather::Gathered gathered = gather::gather(request);
    require_all_named_read(exports, gathered.account, options.mapping);
    const document::Document document = read_gathered(gathered, request, options.output);
    const std::string account = gather::account_text(gathered.account) +
                                evaluate::last_line(evaluate::before_leaving(document, evaluate::evaluate(document))) + "\n";
    SideFiles side_files(options.output, document);
    side_files.write();
    write_output(options.output, gathered.document, read);
    side_files.keep();
    show_account(options.output, account);
    return ExitCode::Fine;
}

/// A mapping with open places, and on standard output what each column would become.
ExitCode propose_mapping(const GatherOptions& options) {
    std::vector<std::string> paths{options.mapping};
    paths.insert(paths.end(), options.exports.begin(), options.exports.end());
    if (options.mapping.empty()) throw UsageError("no exports given: name files, or the folder that they lie in");
    Exports exports = exports_of(paths, {});
    require_output(options.output, exports.read);
    std::ranges::stable_sort(exports.files, gather::before_by_number, &gather::ExportFile::name);
    const gather::Proposal proposal = gather::propose(exports.files);
    write_output(options.output, proposal.mapping, exports.read);
    if (options.output != "-") files::write_file("-", gather::preview_text(proposal));
    return ExitCode::Fine;
}

}  // namespace

void add_gather(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<GatherOptions>();
    CLI::App* verb = program.add_subcommand("gather", "make a result document from exports of readings, as a mapping says");
    verb->footer("wayfolio gather mapping.json exports -o K-2041.json");
    verb->add_option("MAPPING.json", options->mapping, "the mapping: which column of which export is what");
    verb->add_option("EXPORT|DIR...", options->exports, "the exports: files, or the folder that they lie in");
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.json");
    verb->add_option("--facts", options->facts, "what is the same from job to job: laboratory, instruments, limits; may be repeated")
        ->type_name("FACTS.json")
        ->allow_extra_args(false);
    verb->add_option("--into", options->into, "add to this document; it stays as it is, -o names the new one")->type_name("RESULT.json");
    verb->add_option("--state", options->state, "state of series whose mapping names none; it is added to their ids")->type_name("NAME");
    verb->add_option("--replace", options->replace, "overwrite the readings of this series; may be repeated")
        ->type_name("ID")
        ->allow_extra_args(false);
    verb->add_flag("--keep", options->keep, "keep exports, mapping and facts beside the document: they travel with report and record");
    verb->add_flag("--propose", options->propose, "write a mapping for these exports instead, with open places to be filled in");
    verb->callback([&chosen, options] {
        const auto run = [options](const Console&) { return options->propose ? propose_mapping(*options) : gather_exports(*options); };
        chosen = {run, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
