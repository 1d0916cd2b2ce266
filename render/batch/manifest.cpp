#include "batch/manifest.hpp"

#include "archive/record/bag.hpp"
#include "archive/record/record.hpp"
#include "catalogue/visit.hpp"
#include "input/json/json.hpp"
#include "input/json/object_reader.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;
using input::ObjectReader;

/// Names of outputs by line: the second of two would overwrite the first, on some file systems also where only case differs.
class Names {
public:
    void add(const Job& job, const std::string& file, std::vector<input::Problem>& problems) {
        std::string small = job.name;
        std::ranges::transform(small, small.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
        const auto [before, is_new] = lines_.emplace(small, job.line);
        const input::Place place{job.line, 1, "/name"};
        if (!archive::is_safe_name(job.name))
            problems.push_back(
                {file, place, fmt::format("the name {}", input::quoted(job.name)), "a name that every file system can hold", ""});
        else if (!is_new)
            problems.push_back({file, place, fmt::format("the name {} again", input::quoted(job.name)),
                                fmt::format("another name than in line {}", before->second), "give \"name\""});
    }

private:
    std::map<std::string, std::uint32_t> lines_;
};

void read_outputs(ObjectReader& reader, Job& job) {
    const std::vector<std::string> outputs = reader.texts("outputs");
    if (outputs.empty()) return;
    job.wanted = {.report = std::ranges::find(outputs, "report") != outputs.end(),
                  .evaluation = std::ranges::find(outputs, "evaluation") != outputs.end()};
    for (const std::string& one : outputs)
        if (one != "report" && one != "evaluation")
            reader.faults().add_wrong(*reader.find("outputs"), "\"report\", \"evaluation\" or both");
}

Job read_job(const std::string& bytes, const std::string& file, const fs::path& folder, const Job& standard) {
    const input::Json json = input::read_json(bytes, file);
    input::Faults faults(file, json);
    ObjectReader reader(json.root, faults, "a job");
    Job job = standard;
    const fs::path document = reader.required_text("document", "the path of a result document");
    job.from = folder / document;
    job.name = document.stem().string();
    if (reader.find("name") != nullptr) job.name = reader.required_text("name", "a name");
    if (const std::string layout = reader.text("layout"); !layout.empty())
        job.layout = layout.find('/') == std::string::npos && !layout.ends_with(".json") ? layout : (folder / layout).string();
    if (reader.find("paper") != nullptr) {
        job.paper = reader.text("paper");
        if (job.paper != "A4" && job.paper != "Letter") faults.add_wrong(*reader.find("paper"), "\"A4\" or \"Letter\"");
    }
    read_outputs(reader, job);
    reader.finish();
    faults.reject_if_any();
    return job;
}

/// A whole JSON text of several lines in the place of a manifest, as a result document is one.
void require_lines(std::string_view bytes, const std::string& file) {
    const std::size_t first = bytes.find_first_not_of(" \t\r\n");
    if (first != std::string_view::npos && bytes[first] != '{' && bytes[first] != '[')
        throw input::InputRejected({{file,
                                     {static_cast<std::uint32_t>(1 + std::ranges::count(bytes.substr(0, first), '\n')), 1, ""},
                                     "no JSON",
                                     "a manifest: a job on each line, as {\"document\": \"NAME.json\"}",
                                     ""}});
    const std::size_t end = std::min(bytes.find('\n'), bytes.size());
    if (bytes.find_first_not_of(" \t\r\n", end) == std::string_view::npos) return;
    try {
        (void)input::read_json(std::string(bytes), file);
    } catch (const input::InputRejected&) { return; }
    throw input::InputRejected(
        {{file,
          {1, 1, ""},
          "one JSON text over several lines",
          "a manifest: a job on each line",
          "a result document is drawn by \"wayfolio report\"; in a manifest its line is {\"document\": \"NAME.json\"}"}});
}

}  // namespace

std::vector<Job> read_manifest(std::string_view bytes, const std::string& file, const fs::path& folder, const Job& standard) {
    require_lines(bytes, file);
    std::vector<Job> jobs;
    std::vector<input::Problem> problems;
    Names names;
    for (std::size_t at = 0, line = 1; at < bytes.size(); ++line) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        const std::string one(bytes.substr(at, end - at));
        at = end + 1;
        if (one.find_first_not_of(" \t\r") == std::string::npos) continue;
        try {
            jobs.push_back(read_job(one, file, folder, standard));
            jobs.back().line = static_cast<std::uint32_t>(line);
            names.add(jobs.back(), file, problems);
        } catch (const input::InputRejected& rejected) {
            for (input::Problem problem : rejected.problems()) {
                problem.place.line = static_cast<std::uint32_t>(line);
                problems.push_back(std::move(problem));
            }
        }
        if (problems.size() >= input::InputRejected::cap) break;
    }
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
    return jobs;
}

std::vector<Job> jobs_of_folder(const fs::path& folder, const Job& standard) {
    input::require_readable_folder(folder);
    std::vector<Job> jobs;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == ".json" && entry.is_regular_file()) {
            jobs.push_back(standard);
            jobs.back().from = entry.path();
            jobs.back().name = entry.path().stem().string();
        }
    std::ranges::sort(jobs, {}, &Job::name);
    return jobs;
}

std::vector<Job> jobs_of_records(const fs::path& folder, const Job& standard) {
    input::require_readable_folder(folder);
    std::map<fs::path, int> newest;
    for (const fs::path& bag : catalogue::find_bags(folder).bags) {
        const std::vector<archive::Revision> revisions = archive::revisions_in(bag.parent_path());
        if (!revisions.empty()) newest[bag.parent_path()] = revisions.back().number;
    }
    std::vector<Job> jobs;
    for (const auto& [record, revision] : newest) {
        Job job = standard;
        job.source = Source::Record;
        job.from = record / fmt::format("revision-{}", revision);
        job.name = record == folder ? record.filename().string() : record.lexically_relative(folder).string();
        std::ranges::replace(job.name, '/', '-');
        jobs.push_back(std::move(job));
    }
    return jobs;
}

}  // namespace wayfolio::batch
