#include "commands/kept_visits.hpp"

#include "catalogue/index.hpp"
#include "commands/outputs.hpp"
#include "input/iso_date.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

namespace wayfolio::commands {
namespace {

void require_day(const std::string& day, const char* option) {
    if (!day.empty() && !input::is_day(day))
        throw UsageError(fmt::format("{} {}: not a date; write it as 2026-05-11", option, day));
}

void tell_indexed(const catalogue::Indexed& done, const std::string& index, const Console& console) {
    if (!done.rebuilt.empty())
        tell_of(console, Tone::Warning, "warning:", fmt::format("{} {}: rebuilt from the records", index, done.rebuilt));
    for (const std::string& problem : done.problems)
        tell_of(console, Tone::Error, "skipped:", problem);
    tell(fmt::format("{} records read, {} unchanged, {} gone", done.read, done.unchanged, done.gone));
    if (done.read + done.unchanged == 0 && done.problems.empty())
        tell("no record found; \"wayfolio record RESULT.json -o DIR\" writes one");
}

}  // namespace

void add_search(CLI::App& verb, const std::shared_ptr<VisitSearch>& search) {
    verb.add_option("DIR", search->folder, "folder with records, searched with its subfolders");
    verb.add_option("--machine", search->query.machine, "any part of maker, model and kind")->type_name("TEXT");
    verb.add_option("--serial", search->query.serial, "the machine's serial number")->type_name("TEXT");
    verb.add_option("--customer", search->query.customer, "any part of the customer's name")->type_name("TEXT");
    verb.add_option("--axis", search->query.axis, "the axis that moves")->type_name("NAME");
    verb.add_option("--from", search->query.from, "measured on this day or later")->type_name("DATE");
    verb.add_option("--to", search->query.to, "measured on this day or earlier")->type_name("DATE");
    verb.add_option("--index", search->index, "index file (default: wayfolio-catalogue.sqlite in DIR)")->type_name("FILE");
    verb.add_flag("--as-indexed", search->as_indexed, "use the index without updating it");
}

FoundVisits open_catalogue(const VisitSearch& search, const Console& console) {
    if (search.folder.empty()) throw UsageError("no folder of records given");
    require_day(search.query.from, "--from");
    require_day(search.query.due_by, "--due-by");
    require_day(search.query.to, "--to");
    const std::filesystem::path index = search.index.empty() ? catalogue::index_in(search.folder) : std::filesystem::path(search.index);
    if (search.as_indexed) return {catalogue::open_index(index), {}};
    require_index_place(index);
    const catalogue::Indexed done = catalogue::update_index(search.folder, index);
    tell_indexed(done, index.string(), console);
    return {catalogue::open_index(index), done.problems};
}

}  // namespace wayfolio::commands
