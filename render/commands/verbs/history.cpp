#include "catalogue/history_figure.hpp"
#include "database/database.hpp"
#include "commands/figure_format.hpp"
#include "commands/inputs.hpp"
#include "commands/kept_visits.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

namespace wayfolio::commands {
namespace {

struct HistoryOptions {
    VisitSearch search;
    std::string parameter, output, format, layout = "figures";
    bool json = false;
};

constexpr std::size_t most_named = 12;

/// How a user names the machine of a visit.
std::string machine_of(const catalogue::ListedVisit& visit) {
    return visit.serial.empty() ? visit.machine + " (no serial number)" : visit.serial;
}

std::string some_of(const std::set<std::string>& names) {
    const std::vector<std::string> first(names.begin(), std::next(names.begin(), static_cast<long>(std::min(names.size(), most_named))));
    return fmt::format("{}{}", fmt::join(first, ", "),
                       names.size() > most_named ? fmt::format(" and {} more", names.size() - most_named) : "");
}

std::set<std::string> machines_of(const std::vector<catalogue::ListedVisit>& visits) {
    std::set<std::string> machines;
    for (const auto& visit : visits) machines.insert(machine_of(visit));
    return machines;
}

[[noreturn]] void refuse_empty(const database::Database& database, const catalogue::Query& query) {
    const std::set<std::string> known = machines_of(catalogue::find_visits(database, {}));
    if (known.empty()) throw UsageError("the catalogue holds no visit");
    if (!query.serial.empty() && !known.contains(query.serial))
        throw UsageError(fmt::format("no machine has the serial number \"{}\"{}; there are: {}", query.serial,
                                     did_you_mean(query.serial, {known.begin(), known.end()}), some_of(known)));
    throw UsageError("no visit matches all options: remove one, or list the visits with \"wayfolio catalogue\"");
}

/// The visits of one machine: a history of several would be none.
std::vector<catalogue::ListedVisit> visits_of_one(const database::Database& database, const catalogue::Query& query) {
    std::vector<catalogue::ListedVisit> visits = catalogue::find_visits(database, query);
    if (visits.empty()) refuse_empty(database, query);
    const std::set<std::string> machines = machines_of(visits);
    if (machines.size() > 1)
        throw UsageError(fmt::format("{} machines match, but all matching records must be of one machine: choose with --serial: {}",
                                     machines.size(), some_of(machines)));
    return visits;
}

catalogue::History history_asked(const database::Database& database, const HistoryOptions& options) {
    const std::vector<catalogue::ListedVisit> visits = visits_of_one(database, options.search.query);
    catalogue::History history = catalogue::history_of(database, visits, options.search.query.axis, options.parameter);
    if (!history.lines.empty()) return history;
    std::set<std::string> known;
    for (const auto& line : catalogue::history_of(database, visits, options.search.query.axis, "").lines) known.insert(line.parameter);
    if (known.empty()) throw UsageError("the visits have no evaluated parameter with a date");
    throw UsageError(fmt::format("the visits have no parameter \"{}\"{}; they have: {}", options.parameter,
                                 did_you_mean(options.parameter, {known.begin(), known.end()}), fmt::join(known, ", ")));
}

/// Beside a figure nothing else says these words to who does not look at it.
void tell_warnings(const catalogue::History& history, const Console& console) {
    for (const auto& line : history.lines)
        for (const auto& warning : line.warnings)
            tell_of(console, Tone::Warning, "warning:", fmt::format("{} {}: {}", line.error, line.parameter, warning.text));
    for (const std::string& name : catalogue::lines_without_room(history))
        tell("not drawn, no space left: " + name + " (choose with --axis or --parameter)");
}

void draw(const catalogue::History& history, const HistoryOptions& options, const Console& console) {
    const produce::FigureFormat format = figure_format(options.output, options.format);
    if (catalogue::drawn_lines(history).empty()) throw UsageError("no visit has a value to draw; without -o the table gives the reasons");
    const layouts::Layout layout = layouts::read_layout(options.layout, "");
    const text::Shaper shaper(input::data_folder() / "fonts");
    write_output(options.output, catalogue::history_bytes({history, layout, shaper}, format), layout.files);
    tell_warnings(history, console);
}

ExitCode show_history(const HistoryOptions& options, const Console& console) {
    if (options.json && !options.output.empty())
        throw UsageError("--json writes JSON and -o draws a figure: give one of the two");
    if (!options.output.empty()) {
        figure_format(options.output, options.format);
        require_output(options.output, {options.layout});
        require_no_terminal(options.output, console);
    }
    const FoundVisits found = open_catalogue(options.search, console);
    const catalogue::History history = history_asked(found.database, options);
    if (!options.output.empty()) draw(history, options, console);
    else write_output("-", options.json ? catalogue::history_json(history) : catalogue::history_text(history), {});
    return found.damaged.empty() ? ExitCode::Fine : ExitCode::Failed;
}

}  // namespace

void add_history(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<HistoryOptions>();
    CLI::App* verb = program.add_subcommand("history", "one machine's parameters over its visits, with trends and warnings");
    verb->footer("wayfolio history records --serial D-0007\n  wayfolio history records --serial D-0007 --axis X -o history.pdf");
    add_search(*verb, std::shared_ptr<VisitSearch>(options, &options->search));
    verb->add_option("--parameter", options->parameter,
                     "one parameter: A, E, straightness ... (default: those with a limit; all if none has one)")
        ->type_name("NAME");
    verb->add_option("-o,--output", options->output,
                     "output file of a figure: .svg, .pdf or .png, or - for standard output; without it text")
        ->type_name("OUT");
    verb->add_option("--format", options->format, "format (default: that of the file name)")
        ->type_name("svg|pdf|png")
        ->check(one_of("format", {"svg", "pdf", "png"}));
    verb->add_option("--layout", options->layout, "layout of the figure: a shipped layout or a layout file of your own")
        ->type_name("NAME|FILE");
    verb->add_flag("--json", options->json, "write JSON: every parameter and value");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return show_history(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
