#include "archive/record/filing.hpp"

#include "archive/record/record.hpp"
#include "files/output_failed.hpp"
#include "input/digest.hpp"

#include <fmt/format.h>

#include <optional>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;

/// The revision of that number where these inputs made it.
std::optional<fs::path> filed_already(const fs::path& record, int number, const std::string& fingerprint) {
    for (const Revision& revision : revisions_in(record))
        if (revision.number == number && bag_info(revision.folder, "Wayfolio-Fingerprint") == "sha256:" + fingerprint)
            return revision.folder;
    return std::nullopt;
}

/// That the same was filed is no comfort where it is not there any more.
void require_as_filed(const document::Document& document, const fs::path& revision) {
    if (const auto faults = bag_faults(revision); !faults.empty())
        throw input::InputRejected({{document.file,
                                     {0, 0, "/job/revision"},
                                     fmt::format("revision {}, which is not as it was filed: {}", revision_of(document), faults.front()),
                                     "the record as it was filed, or a revision of its own",
                                     "\"wayfolio verify\" names all that was changed"}});
}

}  // namespace

std::string record_name(const std::string& job_number) {
    constexpr std::size_t longest = 100, digits = 16;
    bool as_it_is = is_safe_name(job_number) && job_number.size() <= longest;
    for (const char* const taken : {"job-", "revision-", "wayfolio-"}) as_it_is = as_it_is && !job_number.starts_with(taken);
    return as_it_is ? job_number : "job-" + input::sha256_hex(job_number).substr(0, digits);
}

Filed file_record(const produce::Drawing& drawing, const fs::path& records) {
    const document::Document& document = drawing.document;
    if (document.job.number.empty())
        throw input::InputRejected({{document.file, {0, 0, "/job"}, "no \"number\"", "the number of the job, by which its record is found",
                                     "a record belongs to a job"}});
    const fs::path record = records / record_name(document.job.number);
    const std::string fingerprint = produce::inputs_of(drawing, {}).fingerprint;
    const auto there = [&] { return filed_already(record, revision_of(document), fingerprint); };
    if (auto before = there()) {
        require_as_filed(document, *before);
        return {*before};
    }
    try {
        return {write_record(drawing, record, [](std::string_view) {}), true};
    } catch (const input::InputRejected&) {  // or another has filed the same meanwhile
        if (auto other = there()) return {*other};
        throw;
    } catch (const files::OutputFailed&) {
        if (auto other = there()) return {*other};
        throw;
    }
}

}  // namespace wayfolio::archive
