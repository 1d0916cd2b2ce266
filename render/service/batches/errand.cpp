#include "service/answers/actions.hpp"
#include "service/answers/given.hpp"
#include "service/batches/desk.hpp"
#include "service/log/log.hpp"

#include "batch/do_job.hpp"
#include "document/read_document.hpp"
#include "layouts/layout.hpp"

#include <stdexcept>

namespace wayfolio::service {
namespace {

const std::string standard_layout = "report";

std::string file_at_desk(Desk& desk, const TakenJob& taken, const std::string& name) {
    auto bytes = desk.file_of(taken, name);
    if (!bytes) throw input::InputMissing(name, "did not come with the batch");
    return std::move(*bytes);
}

layouts::Layout layout_of(Desk& desk, const TakenJob& taken) {
    const std::string& name = taken.job.layout.empty() ? standard_layout : taken.job.layout;
    if (const auto own = desk.file_of(taken, name)) return layouts::read_layout_bytes(*own, name, taken.job.paper);
    return layouts::read_layout(name, taken.job.paper);  // a shipped one: others were refused when the batch came
}

/// Draws it from what came alone; nothing on this machine is opened by a name of the batch.
batch::Outcome draw(Desk& desk, const TakenJob& taken, const text::Shaper& shaper, std::map<std::string, std::string>& files) {
    const std::string name = taken.job.from.string();
    const document::Document document = document::read_document(
        file_at_desk(desk, taken, name), name, [&](const std::string& beside) { return file_at_desk(desk, taken, beside); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layout_of(desk, taken);
    const produce::Drawing drawing{document, evaluation, layout, shaper};
    batch::Outcome outcome{.name = taken.job.name, .key = batch::key_of(produce::inputs_of(drawing, {}))};
    batch::draw_files(taken.job, drawing, outcome, [&](const std::string& file, const std::string& bytes) { files[file] = bytes; });
    return outcome;
}

batch::Outcome drawn_or_why(Desk& desk, const TakenJob& taken, const text::Shaper& shaper, std::map<std::string, std::string>& files) {
    try {
        return batch::outcome_of(taken.job.name, [&] { return draw(desk, taken, shaper, files); });
    } catch (const database::DatabaseFailed&) { throw; } catch (const std::exception& fault) {
        log_event("a fault of the service", fault.what());
        files.clear();
        return {.name = taken.job.name, .state = batch::State::Failed, .reason = "a fault of the service; please report it"};
    }
}

Answer draw_next(const std::string& claim, const Workshop& workshop) {
    Desk desk(workshop.batches);
    const std::optional<TakenJob> taken = desk.take(claim);
    if (!taken) return {errands::nothing_to_do, "", "", ""};
    std::map<std::string, std::string> files;
    const batch::Outcome outcome = drawn_or_why(desk, *taken, workshop.shaper, files);
    if (outcome.state != batch::State::Done) files.clear();
    desk.finish(claim, outcome, files);
    return {errands::done, "", "", ""};
}

}  // namespace

Answer run_errand(const Request& request, const Workshop& workshop) {
    if (request.errand == errands::draw) return draw_next(request.path, workshop);
    Desk desk(workshop.batches);
    const bool had = desk.give_up(request.path, request.body, /*again=*/request.errand == errands::wait_again);
    return {had ? errands::done : errands::nothing_to_do, "", "", ""};
}

}  // namespace wayfolio::service
