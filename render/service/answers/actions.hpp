#pragma once
#include "service/answers/routes.hpp"

/// What the routes do: each reads what came, calls what the commands call too, and gives its bytes.
namespace wayfolio::service {

Answer check(const Call& call, const Workshop& workshop);
Answer evaluation(const Call& call, const Workshop& workshop);
Answer report(const Call& call, const Workshop& workshop);
Answer page_list(const Call& call, const Workshop& workshop);
Answer page(const Call& call, const Workshop& workshop);
Answer figure_list(const Call& call, const Workshop& workshop);
Answer figure(const Call& call, const Workshop& workshop);
Answer table(const Call& call, const Workshop& workshop);
Answer certificate(const Call& call, const Workshop& workshop);
Answer verify(const Call& call, const Workshop& workshop);
Answer redrawing(const Call& call, const Workshop& workshop);
Answer comparison(const Call& call, const Workshop& workshop);
Answer proposal(const Call& call, const Workshop& workshop);
Answer previewed(const Call& call, const Workshop& workshop);
Answer previewed_file(const Call& call, const Workshop& workshop);
Answer about_this_service(const Call& call, const Workshop& workshop);
Answer sample_list(const Call& call, const Workshop& workshop);
Answer sample_file(const Call& call, const Workshop& workshop);
Answer planned(const Call& call, const Workshop& workshop);
Answer gathered(const Call& call, const Workshop& workshop);
Answer record_to_take_away(const Call& call, const Workshop& workshop);
Answer file_a_record(const Call& call, const Workshop& workshop);
Answer record_list(const Call& call, const Workshop& workshop);
Answer record(const Call& call, const Workshop& workshop);
Answer record_document(const Call& call, const Workshop& workshop);
Answer record_report(const Call& call, const Workshop& workshop);
Answer record_evaluation(const Call& call, const Workshop& workshop);
Answer record_packed(const Call& call, const Workshop& workshop);
Answer record_verification(const Call& call, const Workshop& workshop);
Answer record_redrawing(const Call& call, const Workshop& workshop);
Answer record_comparison(const Call& call, const Workshop& workshop);
Answer post_a_batch(const Call& call, const Workshop& workshop);
Answer batch_list(const Call& call, const Workshop& workshop);
Answer batch_progress(const Call& call, const Workshop& workshop);
Answer batch_results(const Call& call, const Workshop& workshop);
Answer batch_result(const Call& call, const Workshop& workshop);
Answer batch_events(const Call& call, const Workshop& workshop);
Answer cancel_a_batch(const Call& call, const Workshop& workshop);
Answer forget_a_batch(const Call& call, const Workshop& workshop);
Answer history(const Call& call, const Workshop& workshop);
Answer layout_list(const Call& call, const Workshop& workshop);
Answer schema(const Call& call, const Workshop& workshop);
Answer problem_list(const Call& call, const Workshop& workshop);
Answer description(const Call& call, const Workshop& workshop);
Answer ready(const Call& call, const Workshop& workshop);

/// What the server itself asks (message.hpp, errands).
Answer run_errand(const Request& request, const Workshop& workshop);

}  // namespace wayfolio::service
