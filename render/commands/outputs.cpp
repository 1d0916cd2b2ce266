#include "commands/outputs.hpp"

#include "archive/record/record.hpp"
#include "files/write_file.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <sstream>

namespace wayfolio::commands {
namespace {

namespace fs = std::filesystem;

bool is_whole_bag(const fs::path& folder) {
    std::error_code none;
    return fs::is_regular_file(folder / "bagit.txt", none);
}

}  // namespace

FilesRead files_read(const document::Document& document, const layouts::Layout& layout) {
    FilesRead read = document.files;
    read.insert(read.end(), layout.files.begin(), layout.files.end());
    return read;
}

void require_output(const std::string& output, const FilesRead& read) {
    if (output.empty()) throw UsageError("no output given: give -o FILE, or -o - for standard output");
    front::require_no_input(output, read);
    if (output != "-") require_outside_records(output);
}

void require_outside_records(const fs::path& place) {
    std::error_code none;
    const fs::path whole = fs::weakly_canonical(fs::absolute(place, none), none);
    for (fs::path folder = whole.parent_path();; folder = folder.parent_path()) {
        const auto revisions = archive::revisions_in(folder);
        const bool is_record = std::ranges::any_of(revisions, [](const auto& one) { return is_whole_bag(one.folder); });
        if (is_whole_bag(folder) || is_record)
            throw UsageError(fmt::format("the output {} lies in the record {}, in which nothing is ever changed; name a place outside it",
                                         place.string(), folder.string()));
        if (folder == folder.root_path()) return;
    }
}

void require_index_place(const fs::path& index) {
    std::error_code none;
    const fs::path folder = fs::absolute(index, none).parent_path();
    const bool usual = index.filename() == archive::catalogue_index && !is_whole_bag(folder);
    require_outside_records(usual ? folder : index);
}

void write_output(const std::string& output, std::string_view bytes, const FilesRead& read) {
    require_output(output, read);
    files::write_file(output, bytes);
}

void show_account(const std::string& output, const std::string& account) {
    if (output != "-") return files::write_file("-", account);
    std::istringstream lines(account);
    for (std::string line; std::getline(lines, line);) tell(line);
}

void require_no_terminal(const std::string& output, const Console& console) {
    if (output == "-" && console.output_is_terminal)
        throw UsageError("a terminal cannot show this: redirect standard output, or name a file with -o");
}

}  // namespace wayfolio::commands
