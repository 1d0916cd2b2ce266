#include "service/batches/posted.hpp"

#include "batch/manifest.hpp"
#include "input/digest.hpp"
#include "layouts/layout.hpp"
#include "service/answers/given.hpp"
#include "service/answers/problem.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace wayfolio::service {
namespace {

/// The same manifest with the same files is the same batch, whoever posts it again and whenever.
std::string name_of(const Call& call) {
    constexpr std::size_t digits = 16;
    std::string all = fmt::format("{}\n{}\n{}\n", call.option("layout"), call.option("paper"),
                                  input::sha256_hex(part_in(call, "manifest")));
    for (const auto& [name, bytes] : call.files.side_files) all += fmt::format("{} {}\n", input::sha256_hex(bytes), name);
    return input::sha256_hex(all).substr(0, digits);
}

bool is_shipped(const std::string& layout) {
    const auto shipped = layouts::shipped_layouts();
    return std::ranges::find(shipped, layout) != shipped.end();
}

void find_files(const batch::Job& job, const Call& call, std::vector<input::Problem>& problems) {
    const auto& files = call.files.side_files;
    if (!files.contains(job.from.string()))
        problems.push_back({"manifest", {job.line, 1, "/document"}, fmt::format("the document {}", input::quoted(job.from.string())),
                            "a file that came with the request", "each travels as a part called \"file\", with its filename"});
    if (!job.layout.empty() && !is_shipped(job.layout) && !files.contains(job.layout))
        problems.push_back({"manifest", {job.line, 1, "/layout"}, fmt::format("the layout {}", input::quoted(job.layout)),
                            fmt::format("a file that came with the request, or one of {}", fmt::join(layouts::shipped_layouts(), ", ")),
                            ""});
}

}  // namespace

PostedBatch posted_in(const Call& call) {
    const batch::Job standard{.name = {}, .from = {}, .layout = call.option("layout"), .paper = call.option("paper")};
    PostedBatch posted{.name = name_of(call),
                       .jobs = batch::read_manifest(part_in(call, "manifest"), "manifest", "", standard),
                       .files = call.files.side_files};
    if (posted.jobs.empty()) throw Refused(problems::malformed, "the manifest has no jobs: it is JSON, a job a line");
    std::vector<input::Problem> problems;
    for (const batch::Job& job : posted.jobs) find_files(job, call, problems);
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
    return posted;
}

}  // namespace wayfolio::service
