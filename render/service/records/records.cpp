#include "files/output_failed.hpp"
#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/made_again.hpp"
#include "service/answers/problem.hpp"
#include "service/records/once.hpp"
#include "service/records/packed.hpp"
#include "service/records/shelf.hpp"

#include "archive/record/filing.hpp"
#include "archive/record/record.hpp"
#include "archive/verify/verify.hpp"
#include "evaluate/written/json_text.hpp"
#include "input/iso_date.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>

namespace wayfolio::service {
namespace {

using evaluate::Json;

/// @throws Refused for what is no date
const std::string& day_in(const Call& call, std::string_view option) {
    const std::string& day = call.option(option);
    if (!day.empty() && !input::is_day(day))
        throw Refused(problems::unknown_option, fmt::format("found {} for {}; expected a date as 2026-05-11", day, option));
    return day;
}

catalogue::Query query_of(const Call& call) {
    return {.machine = call.option("machine"),
            .customer = call.option("customer"),
            .serial = call.option("serial"),
            .job = call.option("job"),
            .axis = call.option("axis"),
            .instrument = call.option("instrument"),
            .fingerprint = {},
            .from = day_in(call, "from"),
            .to = day_in(call, "to"),
            .due_by = day_in(call, "due_by"),
            .verdict = call.option("verdict")};
}

PackedAs packed_as(const Call& call) { return call.option("format") == "zip" ? PackedAs::Zip : PackedAs::Tar; }

Answer packed_answer(const archive::Files& files, const Call& call) {
    const PackedAs as = packed_as(call);
    return tagged(call.request, {200, as == PackedAs::Zip ? "application/zip" : "application/x-tar", packed(files, as), ""});
}

/// Every file of a revision, below the names of its record and its own.
archive::Files files_of_revision(const std::filesystem::path& folder) {
    archive::Files files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            files[entry.path().lexically_relative(folder.parent_path().parent_path()).string()] = input::read_regular_file(entry.path());
    return files;
}

struct Kept {
    std::string_view file, content_type;
};

Answer kept_file(const Call& call, const Workshop& workshop, const Kept& kept) {
    const std::filesystem::path file = unchanged_folder(call.named, workshop) / "data" / kept.file;
    return tagged(call.request, {200, std::string(kept.content_type), input::read_regular_file(file), ""});
}

archive::Filed file_once(const Call& call, const produce::Drawing& drawing, const std::filesystem::path& records) {
    try {
        require_first_use(call, records);
        return archive::file_record(drawing, records);
    } catch (const files::OutputFailed& failed) { refuse_unkept(failed); }
}

}  // namespace

Answer record_to_take_away(const Call& call, const Workshop& workshop) {
    const document::Document document = document_in(call);
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layout_in(call);
    archive::Files files;
    for (auto& [path, bytes] : archive::first_revision({document, evaluation, layout, workshop.shaper}))
        files[fmt::format("{}/revision-{}/{}", archive::record_name(document.job.number), archive::revision_of(document), path)] =
            std::move(bytes);
    return packed_answer(files, call);
}

Answer file_a_record(const Call& call, const Workshop& workshop) {
    const Shelf& shelf = shelf_in(workshop);
    const document::Document document = document_in(call);
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layout_in(call);
    const produce::Drawing drawing{document, evaluation, layout, workshop.shaper};
    const archive::Filed filed = file_once(call, drawing, shelf.records);
    const std::string fingerprint = produce::inputs_of(drawing, {}).fingerprint;
    const Json json{{"fingerprint", fingerprint},
                    {"job", document.job.number},
                    {"revision", archive::revision_of(document)},
                    {"record", filed.folder.lexically_relative(shelf.records).string()},
                    {"filed", filed.now ? "now" : "before"}};
    return {filed.now ? 201U : 200U, "application/json", evaluate::to_text(json), "", "/v1/records/" + fingerprint};
}

Answer record_list(const Call& call, const Workshop& workshop) {
    const OpenShelf shelf = open_shelf(workshop);
    return tagged(call.request, {200, "application/json",
                                 catalogue::listing_json(catalogue::find_visits(shelf.database, query_of(call)), shelf.damaged), ""});
}

Answer record(const Call& call, const Workshop& workshop) {
    return tagged(call.request, {200, "application/json", catalogue::listing_json({visit_of(call.named, workshop)}, {}), ""});
}

Answer record_document(const Call& call, const Workshop& workshop) {
    return kept_file(call, workshop, {"inputs/wayfolio-result.json", "application/json"});
}

Answer record_report(const Call& call, const Workshop& workshop) { return kept_file(call, workshop, {"report.pdf", "application/pdf"}); }

Answer record_evaluation(const Call& call, const Workshop& workshop) {
    return kept_file(call, workshop, {"evaluation.json", "application/json"});
}

Answer record_packed(const Call& call, const Workshop& workshop) {
    return packed_answer(files_of_revision(unchanged_folder(call.named, workshop)), call);
}

Answer record_verification(const Call& call, const Workshop& workshop) {
    const std::filesystem::path folder = folder_of(call.named, workshop);
    archive::Verification verdict = archive::verify_record(folder, {workshop.shaper, call.option("against")});
    verdict.file = folder.lexically_relative(shelf_in(workshop).records).string();  // where they lie is nobody's concern
    return {200, "application/json", archive::verification_json(verdict), ""};
}

Answer record_redrawing(const Call& call, const Workshop& workshop) {
    return redrawn(making_of(call.named, workshop), call, workshop);
}

}  // namespace wayfolio::service
