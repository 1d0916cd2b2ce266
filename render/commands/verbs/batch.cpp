#include "batch/journal.hpp"
#include "batch/manifest.hpp"
#include "batch/merge.hpp"
#include "batch/run.hpp"
#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "commands/outputs.hpp"
#include "front/process.hpp"
#include "commands/rate.hpp"
#include "input/data_folder.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <memory>
#include <thread>

namespace wayfolio::commands {
namespace {

struct BatchOptions {
    std::string jobs, output, layout, paper, shard, redraw;
    std::size_t workers = std::max(1U, std::thread::hardware_concurrency());
    bool only_plan = false, json = false, merge = false;
};

volatile std::sig_atomic_t asked_to_stop = 0;

/// A signal ends the batch after the jobs that are at work; a second one ends it at once.
void listen_for_signals() {
    for (const int one : {SIGINT, SIGTERM}) {
        struct sigaction action {};
        action.sa_handler = [](int) { asked_to_stop = 1; };
        action.sa_flags = static_cast<int>(SA_RESETHAND);
        sigaction(one, &action, nullptr);
    }
}

batch::Shard shard_in(const std::string& word) {
    if (word.empty()) return {};
    std::optional<batch::Shard> shard = batch::shard_of(word);
    const auto variable = [](const char* name) -> const char* { return std::getenv(name); };
    if (word == "slurm") shard = batch::slurm_shard(variable);
    if (const std::string_view prefix = "kubernetes/"; word.starts_with(prefix)) {
        const auto of = batch::shard_of("0/" + word.substr(prefix.size()));
        shard = of ? batch::kubernetes_shard(variable, of->count) : std::nullopt;
    }
    if (!shard)
        throw UsageError(
            fmt::format("--shard {}: expected I/N with I from 0, as 3/8; slurm, in a task of a job array without a step; or "
                        "kubernetes/N, in a pod of an Indexed Job",
                        word));
    return *shard;
}

std::vector<batch::Job> jobs_in(const BatchOptions& options) {
    const batch::Job standard{.name = {}, .from = {}, .layout = options.layout, .paper = options.paper};
    if (!options.redraw.empty()) {
        if (!options.jobs.empty()) throw UsageError("--redraw takes its jobs from records: leave out " + options.jobs);
        return batch::jobs_of_records(options.redraw, standard);
    }
    if (options.jobs.empty())
        throw UsageError("no jobs given: name a manifest (a job a line), a folder of documents, or - for standard input");
    std::error_code none;
    if (std::filesystem::is_directory(options.jobs, none)) return batch::jobs_of_folder(options.jobs, standard);
    const bool piped = options.jobs == "-";
    const std::filesystem::path folder = piped ? std::filesystem::path() : std::filesystem::path(options.jobs).parent_path();
    return batch::read_manifest(input::read_file(options.jobs), piped ? "standard input" : options.jobs, folder, standard);
}

/// Nothing is written over a document, or into a record.
void require_place(const BatchOptions& options, const std::vector<batch::Job>& jobs) {
    if (options.output.empty() || options.output == "-") throw UsageError("a batch writes many files: give -o DIR");
    const std::filesystem::path into(options.output);
    require_outside_records(into / batch::results_name({}));
    for (const batch::Job& job : jobs)
        if (job.wanted.evaluation && job.from.filename() == job.name + ".evaluation.json")
            require_output((into / (job.name + ".evaluation.json")).string(), {job.from});
}

void tell_failure(const batch::Outcome& outcome, const Console& console) {
    if (outcome.state == batch::State::Done) return;
    end_progress(console);
    for (const input::Problem& fault : outcome.faults) tell(input::to_text(fault));
    tell_of(console, Tone::Error, outcome.name + ":",
            outcome.faults.empty()
                ? outcome.reason
                : fmt::format("{} {} in its input; not drawn", outcome.faults.size(), outcome.faults.size() == 1 ? "fault" : "faults"));
}

std::string plan_line(const batch::Progress& progress) {
    const batch::Outcome& outcome = progress.did.outcome;
    if (outcome.state != batch::State::Done) return outcome.name + ": cannot be drawn\n";
    return outcome.name + (progress.did.why.empty() ? ": is there\n" : ": to be drawn: " + progress.did.why + "\n");
}

void tell_changes(const batch::Outcome& outcome) {
    if (outcome.changes == 0) return;
    tell(fmt::format("{}: {} numbers differ from those that were kept", outcome.name, outcome.changes));
    for (const std::string& line : outcome.changed) tell("  " + line);
}

/// Of all outcomes the one that asks for the most; 75 asks to try again (sysexits.h: EX_TEMPFAIL).
ExitCode code_of(const batch::Summary& summary) {
    if (summary.stopped) return ExitCode::Stopped;
    if (summary.failed > 0) return ExitCode::TryAgain;
    return summary.faulty > 0 ? ExitCode::Failed : ExitCode::Fine;
}

ExitCode run_batch(const BatchOptions& options, const std::vector<batch::Job>& jobs, const Console& console) {
    const batch::Settings settings{.into = options.output,
                                   .fonts = input::data_folder() / "fonts",
                                   .workers = options.only_plan ? 1 : options.workers,  // told in its order
                                   .shard = shard_in(options.shard),
                                   .only_plan = options.only_plan};
    listen_for_signals();
    front::allocate_apart(settings.workers);
    Rate rate;
    const auto told = [&](const batch::Progress& progress) {
        const batch::Outcome& outcome = progress.did.outcome;
        if (!options.json) tell_failure(outcome, console);
        if (!options.json && options.only_plan && !print(plan_line(progress))) asked_to_stop = 1;
        if (options.json && !print(batch::to_line(outcome) + "\n")) asked_to_stop = 1;  // nobody reads any more
        if (!options.json && !options.redraw.empty()) tell_changes(outcome);
        if (!options.json && !options.only_plan) show_progress(console, progress.done, progress.of, rate.words(progress.done, progress.of));
    };
    const batch::Summary summary = batch::run(
        jobs, settings, [] { return asked_to_stop != 0; }, told);
    end_progress(console);
    tell(fmt::format("{} {}, {} already there, {} with faults in their input, {} failed{}", summary.drawn,
                     options.only_plan ? "to be drawn" : "drawn", summary.unchanged, summary.faulty, summary.failed,
                     summary.stopped ? "; stopped: the same command goes on from here" : ""));
    return code_of(summary);
}

ExitCode merge_shards(const BatchOptions& options, const std::vector<batch::Job>& jobs) {
    const batch::Merged merged = batch::merge(jobs, options.output);
    if (!merged.holes.empty()) {
        for (const std::string& hole : merged.holes) tell(hole);
        tell("not all is done; nothing was written");
        return ExitCode::TryAgain;
    }
    tell(fmt::format("{} jobs, {} with faults in their input, {} failed", jobs.size(), merged.faulty, merged.failed));
    return merged.failed > 0 ? ExitCode::TryAgain : merged.faulty > 0 ? ExitCode::Failed : ExitCode::Fine;
}

ExitCode batch_of(const BatchOptions& options, const Console& console) {
    const std::vector<batch::Job> jobs = jobs_in(options);
    require_place(options, jobs);
    if (jobs.empty())
        throw UsageError(options.redraw.empty()
                             ? options.jobs + ": no jobs: a folder has to hold result documents (.json), a manifest a job a line"
                             : options.redraw + ": no record below it; \"wayfolio record RESULT.json -o DIR\" writes one");
    return options.merge ? merge_shards(options, jobs) : run_batch(options, jobs, console);
}

}  // namespace

void add_batch(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<BatchOptions>();
    CLI::App* verb = program.add_subcommand("batch", "many reports in one go, and again only those of which something changed");
    verb->footer("wayfolio batch jobs.jsonl -o reports\n  wayfolio batch --redraw records -o again --layout summary");
    verb->add_option("JOBS", options->jobs, "a manifest (JSON, a job a line), a folder of result documents, or - for standard input");
    verb->add_option("-o,--output", options->output, "folder of the results: NAME.pdf, and what became of each job in results.jsonl")
        ->type_name("DIR");
    verb->add_option("--jobs", options->workers, "jobs at a time (default: as many as processors)")
        ->type_name("N")
        ->check(CLI::Range(1, 256));
    verb->add_option("--layout", options->layout, "of jobs that name none: a shipped layout or a layout file of your own")
        ->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "paper size of jobs that name none")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->add_option("--redraw", options->redraw,
                     "draw the newest revision of each record in this folder, and say which numbers are others")
        ->type_name("DIR");
    verb->add_option("--shard", options->shard, "only a part of the jobs: I of N, from 0; or as Slurm or Kubernetes say it")
        ->type_name("I/N|slurm|kubernetes/N");
    verb->add_flag("--merge", options->merge, "join the results of all shards of these jobs");
    verb->add_flag("--plan", options->only_plan, "say what would be drawn and why; draw nothing");
    verb->add_flag("--json", options->json, "write what becomes of each job as a line of JSON, as soon as it is there");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return batch_of(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
