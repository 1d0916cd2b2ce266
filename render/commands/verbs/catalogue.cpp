#include "commands/inputs.hpp"
#include "commands/kept_visits.hpp"
#include "files/write_file.hpp"

#include <CLI/App.hpp>

namespace wayfolio::commands {
namespace {

ExitCode list_catalogue(const VisitSearch& search, bool json, const Console& console) {
    const FoundVisits found = open_catalogue(search, console);
    const auto visits = catalogue::find_visits(found.database, search.query);
    files::write_file("-", json ? catalogue::listing_json(visits, found.damaged) : catalogue::listing_text(visits));
    return found.damaged.empty() ? ExitCode::Fine : ExitCode::Failed;
}

}  // namespace

void add_catalogue(CLI::App& program, Command& chosen) {
    const auto search = std::make_shared<VisitSearch>();
    const auto json = std::make_shared<bool>(false);
    CLI::App* verb =
        program.add_subcommand("catalogue", "search the records in a folder and its subfolders: by machine, axis, customer, date, verdict");
    verb->footer("wayfolio catalogue records --serial D-0007 --verdict fail");
    add_search(*verb, search);
    verb->add_option("--job", search->query.job, "the job's number")->type_name("NUMBER");
    verb->add_option("--instrument", search->query.instrument, "serial number of an instrument that was used")->type_name("SERIAL");
    verb->add_option("--due-by", search->query.due_by, "what was agreed to be measured again until this day, and was not")
        ->type_name("DATE");
    verb->add_option("--verdict", search->query.verdict, "visits with a result of this verdict (with --axis: of that axis)")
        ->type_name("WORD")
        ->check(one_of("verdict", {"pass", "fail", "conditional_pass", "conditional_fail", "undecided", "not_decided"}));
    verb->add_flag("--json", *json, "write JSON");
    verb->callback([&chosen, search, json] {
        chosen = {[search, json](const Console& console) { return list_catalogue(*search, *json, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
