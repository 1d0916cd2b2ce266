#include "service/answers/actions.hpp"
#include "service/answers/route_parts.hpp"

namespace wayfolio::service {
namespace {

using namespace route_parts;

constexpr std::string_view of_one_batch = "/v1/batches/{batch}", of_one_batch_results = "/v1/batches/{batch}/results",
                           of_one_batch_result = "/v1/batches/{batch}/result", of_one_batch_events = "/v1/batches/{batch}/events",
                           of_one_batch_cancellation = "/v1/batches/{batch}/cancellation";

const QueryOption layout_of_jobs{
    "layout", "of jobs that name none: a shipped layout, or a file that came with them", {}, "report", "summary"};

}  // namespace

std::vector<Route> route_parts::routes_of_batches() {
    using enum Takes;
    return {
        {"POST",
         "/v1/batches",
         "batch-posting",
         "Takes a batch in: a manifest, and the files of its jobs; it is drawn while others are served. The same again is the same batch; "
         "where it was cancelled, it goes on",
         Batch,
         {layout_of_jobs, paper},
         {json},
         post_a_batch,
         By::Clerks},
        {"GET", "/v1/batches", "batches", "All batches and how far each is", Nothing, {}, {json}, batch_list, By::Clerks},
        {"GET", of_one_batch, "batch", "How far a batch is", Nothing, {}, {json}, batch_progress, By::Clerks},
        {"DELETE",
         of_one_batch,
         "batch-removal",
         "Forgets a batch, its files and its results",
         Nothing,
         {},
         {},
         forget_a_batch,
         By::Clerks},
        {"GET",
         of_one_batch_results,
         "batch-results",
         "What became of the jobs that have ended, in the order of the manifest: the lines of results.jsonl (wayfolio-batch(7))",
         Nothing,
         {},
         {"application/jsonl"},
         batch_results,
         By::Clerks},
        {"GET",
         of_one_batch_result,
         "batch-result",
         "One file that was drawn",
         Nothing,
         {{"name", "which file, as the results name it", {}, "", "J-000.pdf", true}},
         {pdf, json},
         batch_result,
         By::Clerks},
        {"GET",
         of_one_batch_events,
         "batch-events",
         "Progress as it comes (Server-Sent Events): \"job\" with the line of each job that ends, \"ended\" with the counts",
         Nothing,
         {{"after", "only what came after the event of this number; Last-Event-ID says the same", {}, "0", "1"}},
         {"text/event-stream"},
         batch_events,
         By::Clerks},
        {"POST",
         of_one_batch_cancellation,
         "batch-cancellation",
         "What is not begun of a batch is not drawn any more; what was drawn stays",
         Nothing,
         {},
         {json},
         cancel_a_batch,
         By::Clerks},
    };
}

}  // namespace wayfolio::service
