#include "archive/record/record.hpp"
#include "files/unfinished.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <optional>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;
using files::OutputFailed;

constexpr std::string_view prefix = "revision-";

std::string folder_name(int revision) { return std::string(prefix) + std::to_string(revision); }

/// The number in "revision-12", or nothing.
std::optional<int> number_in(const std::string& name) {
    int number = 0;
    const char *from = name.data() + prefix.size(), *to = name.data() + name.size();
    if (!name.starts_with(prefix) || std::from_chars(from, to, number).ptr != to || folder_name(number) != name) return std::nullopt;
    return number;
}

bool is_unfinished(const std::string& name) {
    const auto target = files::unfinished_target(name);
    return target && target->starts_with(prefix);
}

/// The index, its journal, and what is left of one that was being built.
bool of_the_catalogue(const std::string& name) {
    const std::string index(catalogue_index);
    return name == index || name == index + "-journal" || files::unfinished_target(name) == index;
}

[[noreturn]] void refuse(const document::Document& document, const char* pointer, std::string found, std::string expected) {
    throw input::InputRejected({{document.file, {0, 0, pointer}, std::move(found), std::move(expected),
                                 "a record is never overwritten: what was corrected gets a revision of its own"}});
}

/// A later revision follows the newest one and says which it replaces, and why.
void require_successor(const document::Document& document, const Revision& newest) {
    const auto& job = document.job;
    if (revision_of(document) <= newest.number)
        refuse(document, "/job/revision", fmt::format("revision {}", revision_of(document)),
               fmt::format("a higher job.revision: revision {} exists already", newest.number));
    if (!job.replaces) refuse(document, "/job/replaces", "no \"replaces\"", "the revision that this one replaces, with the reason");
    if (job.replaces->revision != newest.number)
        refuse(document, "/job/replaces/revision", job.replaces->revision ? std::to_string(*job.replaces->revision) : "nothing",
               fmt::format("{}, the newest in the record", newest.number));
    if (job.replaces->reason.empty()) refuse(document, "/job/replaces/reason", "no reason", "why the report is replaced");
    if (const std::string number = bag_info(newest.folder, "External-Identifier"); number != job.number)
        refuse(document, "/job/number", fmt::format("job \"{}\"", job.number), fmt::format("job \"{}\", whose record this is", number));
}

void require_record_folder(const fs::path& folder, const std::vector<Revision>& revisions) {
    std::error_code none;
    if (!fs::exists(folder, none)) return;
    if (!fs::is_directory(folder, none)) throw OutputFailed(folder, "is not a folder", /*cannot_create=*/true);
    if (!revisions.empty()) return;
    for (const auto& entry : fs::directory_iterator(folder, none))
        if (!entry.path().filename().string().starts_with("."))
            throw OutputFailed(folder, "holds something that is not a record; name a folder of its own", /*cannot_create=*/true);
}

/// "WF-2041, revision 0"
std::string replaced_words(const document::Replaces& replaces) {
    std::string words = replaces.number;
    if (replaces.revision) words += fmt::format("{}revision {}", words.empty() ? "" : ", ", *replaces.revision);
    return words;
}

/// @param before what the record has. What a first one replaces lies elsewhere, so that nobody looks for it here.
BagInfo info_of(const produce::Drawing& drawing, const std::vector<Revision>& before) {
    const auto& job = drawing.document.job;
    BagInfo info{{"Source-Organization", job.laboratory ? job.laboratory->name : ""},
                 {"External-Identifier", job.number},
                 {"External-Description", job.title},
                 {"Bag-Software-Agent", "wayfolio " + std::string(version())},
                 {"Wayfolio-Revision", std::to_string(revision_of(drawing.document))},
                 {"Wayfolio-Fingerprint", "sha256:" + produce::inputs_of(drawing, {}).fingerprint}};
    if (!before.empty()) info.emplace_back("Wayfolio-Replaces", folder_name(before.back().number));
    else if (job.replaces) info.emplace_back("Wayfolio-Replaces-Elsewhere", replaced_words(*job.replaces));
    if (job.replaces) info.emplace_back("Wayfolio-Reason", job.replaces->reason);
    return info;
}

/// Of two runs that write into one record, the second waits here until the first has moved its revision into place. Where the file system
/// has no such locks, rename alone decides between two of one number.
class RecordLock {
public:
    explicit RecordLock(const fs::path& record) : descriptor_(open(record.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
        if (descriptor_ >= 0) flock(descriptor_, LOCK_EX);
    }
    ~RecordLock() {
        if (descriptor_ >= 0) close(descriptor_);
    }
    RecordLock(const RecordLock&) = delete;
    RecordLock& operator=(const RecordLock&) = delete;

private:
    int descriptor_;
};

/// What was checked at the start must still be so.
void require_unchanged(const document::Document& document, const fs::path& folder, const std::vector<Revision>& before) {
    const std::vector<Revision> now = revisions_in(folder);
    if (std::ranges::equal(now, before, {}, &Revision::number, &Revision::number)) return;
    if (!now.empty()) require_successor(document, now.back());
    throw OutputFailed(folder, "another run has changed the record meanwhile; run this again", /*cannot_create=*/true);
}

}  // namespace

int revision_of(const document::Document& document) { return document.job.revision.value_or(0); }

std::vector<Revision> revisions_in(const fs::path& record) {
    std::vector<Revision> found;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(record, none))
        if (const auto number = number_in(entry.path().filename().string()); number && entry.is_directory(none))
            found.push_back({*number, entry.path()});
    std::ranges::sort(found, {}, &Revision::number);
    return found;
}

std::vector<std::string> unfinished_in(const fs::path& record) {
    std::vector<std::string> found;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(record, none))
        if (const std::string name = entry.path().filename().string(); is_unfinished(name)) found.push_back(name);
    std::ranges::sort(found);
    return found;
}

std::vector<std::string> strangers_in(const fs::path& record) {
    std::vector<std::string> found;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(record, none)) {
        const std::string name = entry.path().filename().string();
        const bool link = entry.is_symlink(none), folder = !link && entry.is_directory(none), file = !link && entry.is_regular_file(none);
        if (!(folder && (number_in(name) || is_unfinished(name))) && !(file && of_the_catalogue(name))) found.push_back(name);
    }
    std::ranges::sort(found);
    return found;
}

Files first_revision(const produce::Drawing& drawing) {
    Files files;
    Manifests manifests;
    const auto add = [&](const std::string& path, std::string bytes) {
        manifests.add("data/" + path, digests_of(bytes), bytes.size());
        files["data/" + path] = std::move(bytes);
    };
    for (auto& [path, bytes] : payload_of(drawing)) add(path, std::move(bytes));
    for (const auto& [path, source] : large_payload_of(drawing)) {
        std::string bytes;
        input::read_in_pieces(source, [&](std::string_view piece) { bytes += piece; });
        add(path, std::move(bytes));
    }
    files.merge(tag_files(manifests, info_of(drawing, {})));
    return files;
}

fs::path write_record(const produce::Drawing& drawing, const fs::path& folder, const Step& step) {
    const std::vector<Revision> before = revisions_in(folder);
    require_record_folder(folder, before);
    if (!before.empty()) require_successor(drawing.document, before.back());
    const fs::path target = folder / folder_name(revision_of(drawing.document));
    step("draw");
    std::optional<RecordLock> lock;
    try {
        write_bag(target, {payload_of(drawing), large_payload_of(drawing)}, info_of(drawing, before), [&](std::string_view next) {
            if (next == "move into place") {
                lock.emplace(folder);
                require_unchanged(drawing.document, folder, before);
            }
            step(next);
        });
    } catch (const OutputFailed&) {  // another run has written meanwhile, which is no fault of the disk, or else the disk has one
        require_unchanged(drawing.document, folder, before);
        throw;
    }
    return target;
}

}  // namespace wayfolio::archive
