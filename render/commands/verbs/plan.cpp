#include "plan/plan.hpp"
#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "commands/outputs.hpp"
#include "input/data_folder.hpp"
#include "output/output.hpp"
#include "plan/sheet.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <memory>
#include <optional>

namespace wayfolio::commands {
namespace {

struct PlanOptions {
    std::vector<std::string> errors, states, facts;
    std::string travel, unit, output, sheet, paper;
    std::size_t runs = 5, targets = 0;
    std::uint64_t seed = 1;
    std::optional<double> feed{}, dwell{};
    bool one_approach_first = false;
};

std::vector<document::ErrorSymbol> errors_of(const PlanOptions& options) {
    if (options.errors.empty()) throw UsageError("no error given: name what is measured, as EXX for the positioning of X");
    std::vector<document::ErrorSymbol> errors;
    for (const std::string& word : options.errors) {
        const auto symbol = document::error_symbol(word);
        if (!symbol)
            throw UsageError(
                fmt::format("{}: no error symbol; EXX is the positioning of X, EYX its straightness in Y, EBX its rotation about Y", word));
        if (!errors.empty() && symbol->axis != errors.front().axis)
            throw UsageError(fmt::format("{} is of another axis than {}: one plan is for one axis", word, errors.front().text()));
        for (const auto& before : errors)
            if (before == *symbol) throw UsageError(fmt::format("{} is named twice", word));
        errors.push_back(*symbol);
    }
    return errors;
}

std::optional<double> number_in(std::string_view text) {
    double number = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
    // "inf" and "nan" are numbers to it.
    return failure == std::errc() && end == text.data() + text.size() && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

std::optional<plan::Range> range_of(const PlanOptions& options, bool rotary) {
    if (options.travel.empty()) return std::nullopt;
    const std::size_t colon = options.travel.find(':');
    const auto from = number_in(std::string_view(options.travel).substr(0, colon));
    const auto to = colon == std::string::npos ? std::nullopt : number_in(std::string_view(options.travel).substr(colon + 1));
    if (!from || !to || *from >= *to) throw UsageError(fmt::format("--travel {}: write it as FROM:TO, as 0:6400", options.travel));
    const std::string unit = options.unit.empty() ? rotary ? "deg" : "mm" : options.unit;
    if ((unit == "deg") != rotary)
        throw UsageError(
            fmt::format("--unit {}: {} axes are measured in {}", unit, rotary ? "rotary" : "linear", rotary ? "deg" : "mm or in"));
    return plan::Range{*from, *to, *units::position_unit(unit)};
}

void require_counts(const PlanOptions& options) {
    constexpr std::size_t most_runs = 100, most_targets = 1'000;
    if (options.runs < 1 || options.runs > most_runs) throw UsageError(fmt::format("--runs {}: from 1 to {}", options.runs, most_runs));
    if (options.targets != 0 && (options.targets < 3 || options.targets > most_targets))
        throw UsageError(fmt::format("--targets {}: from 3 to {}", options.targets, most_targets));
    constexpr double most_feed = 1e6, most_dwell_s = 3600;
    if (options.feed && !(*options.feed >= 1 && *options.feed <= most_feed))
        throw UsageError(fmt::format("--feed {}: from 1 to {} mm or deg a minute", *options.feed, most_feed));
    if (options.dwell && !(*options.dwell >= 0 && *options.dwell <= most_dwell_s))
        throw UsageError(fmt::format("--dwell {}: from 0 to {} s", *options.dwell, most_dwell_s));
    std::vector<std::string> states = options.states;
    std::ranges::sort(states);
    if (const auto twice = std::ranges::adjacent_find(states); twice != states.end())
        throw UsageError(fmt::format("--state {} is named twice", *twice));
}

ExitCode write_plan(const PlanOptions& options) {
    FilesRead read;
    read.insert(read.end(), options.facts.begin(), options.facts.end());
    require_output(options.output, read);
    if (!options.sheet.empty()) require_output(options.sheet, read);
    if (options.sheet == options.output) throw UsageError("--sheet and --output name one file");
    require_counts(options);
    plan::PlanRequest request{.errors = errors_of(options), .runs = options.runs, .seed = options.seed, .states = options.states};
    request.range = range_of(options, request.errors.front().axis_is_rotary());
    if (options.targets != 0) request.targets = options.targets;
    if (options.one_approach_first) request.order = document::RunOrder::OneApproachFirst;
    request.feed = options.feed;
    request.dwell_s = options.dwell;
    for (const std::string& file : options.facts) request.facts.push_back(gather::facts_file(file));
    const plan::Planned planned = plan::plan(request);
    std::string pdf;
    if (!options.sheet.empty()) {
        const text::Shaper shaper(input::data_folder() / "fonts");
        pdf = plan::sheet_pdf(planned, layouts::read_layout("report", options.paper), shaper);
    }
    write_output(options.output, planned.document, read);
    if (!options.sheet.empty()) write_output(options.sheet, pdf, read);
    show_account(options.output, plan::plan_text(planned));
    return ExitCode::Fine;
}

}  // namespace

void add_plan(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<PlanOptions>();
    CLI::App* verb =
        program.add_subcommand("plan", "a job before it starts: an empty document for gather --into, and a sheet to fill by hand");
    verb->footer("wayfolio plan EXX EYX --travel 0:6400 --feed 6000 --dwell 4 -o plan.json --sheet plan.pdf");
    verb->add_option("ERROR...", options->errors, "what is measured along one axis, by ISO 230-1: EXX, EYX, EBX ...");
    verb->add_option("--travel", options->travel, "what is measured (default: the travel that the facts give the axis)")
        ->type_name("FROM:TO");
    verb->add_option("--unit", options->unit, "unit of the travel (default: mm, of rotary axes deg)")
        ->type_name("mm|in|deg")
        ->check(one_of("unit", {"mm", "in", "deg"}));
    verb->add_option("--runs", options->runs, "runs in each approach (default: 5)")->type_name("N");
    verb->add_option("--targets", options->targets, "number of targets (default: the least that the standard asks for)")->type_name("N");
    verb->add_option("--seed", options->seed, "of the random part in the spacing of the targets (default: 1)")->type_name("N");
    verb->add_flag("--one-approach-first", options->one_approach_first, "all positive runs before the negative ones, not in turn");
    verb->add_option("--feed", options->feed, "feed speed in mm or deg a minute")->type_name("NUMBER");
    verb->add_option("--dwell", options->dwell, "seconds at each target")->type_name("SECONDS");
    verb->add_option("--state", options->states, "a state of the machine, as as-found; may be repeated: a series for each")
        ->type_name("NAME")
        ->allow_extra_args(false);
    verb->add_option("--facts", options->facts, "what is the same from job to job; may be repeated")
        ->type_name("FACTS.json")
        ->allow_extra_args(false);
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.json");
    verb->add_option("--sheet", options->sheet, "a sheet to fill by hand, too")->type_name("OUT.pdf");
    verb->add_option("--paper", options->paper, "paper size of the sheet (default: A4)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return write_plan(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
