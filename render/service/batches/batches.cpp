#include "files/output_failed.hpp"
#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/problem.hpp"
#include "service/batches/events.hpp"
#include "service/batches/posted.hpp"
#include "service/records/shelf.hpp"

#include "evaluate/written/json_text.hpp"

#include <fmt/format.h>

namespace wayfolio::service {
namespace {

using evaluate::Json;

Json counts_json(const BatchCounts& counts) {
    return {{"batch", counts.name},         {"jobs", counts.jobs},     {"waiting", counts.waiting},     {"at_work", counts.at_work},
            {"done", counts.done},          {"faulty", counts.faulty}, {"failed", counts.failed},       {"cancelled", counts.cancelled},
            {"ended", counts.waiting + counts.at_work == 0}};
}

Answer batch_answer(const BatchCounts& counts, unsigned status) {
    return {status, "application/json", evaluate::to_text(counts_json(counts)), "", "/v1/batches/" + counts.name};
}

[[noreturn]] void refuse_unknown(const std::string& batch) {
    throw Refused(problems::nothing_there, fmt::format("there is no batch {}", input::quoted(batch)));
}

/// The answer to what is asked of the desk. @throws Refused where there is none, or it cannot be written
template <typename Ask>
Answer at_desk(const Workshop& workshop, Ask ask) {
    if (workshop.batches.empty()) throw Refused(problems::no_batches, "wayfolio serve --batches FILE takes some");
    try {
        Desk desk(workshop.batches);
        return ask(desk);
    } catch (const database::DatabaseFailed& failed) {
        refuse_unkept(failed);
    } catch (const files::OutputFailed& failed) { refuse_unkept(failed); }
}

BatchCounts counts_of(Desk& desk, const std::string& batch) {
    const auto counts = desk.counts(batch);
    if (!counts) refuse_unknown(batch);
    return *counts;
}

}  // namespace

Answer post_a_batch(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        const PostedBatch posted = posted_in(call);
        const auto taken = desk.take_in(posted, workshop.limits.waiting_in_batches);
        if (!taken)
            throw Refused(problems::busy, fmt::format("at most {} jobs of batches wait", workshop.limits.waiting_in_batches));
        constexpr unsigned ok = 200, accepted = 202;
        return batch_answer(counts_of(desk, posted.name), *taken == Desk::Taken::WasThere ? ok : accepted);
    });
}

Answer batch_list(const Call&, const Workshop& workshop) {
    return at_desk(workshop, [](Desk& desk) {
        Json json{{"batches", Json::array()}};
        for (const BatchCounts& counts : desk.batches()) json["batches"].push_back(counts_json(counts));
        return Answer{200, "application/json", evaluate::to_text(json), ""};
    });
}

Answer batch_progress(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        Answer answer = batch_answer(counts_of(desk, call.named), 200);
        answer.location.clear();
        return answer;
    });
}

Answer batch_results(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        (void)counts_of(desk, call.named);
        std::string lines;
        for (const std::string& line : desk.results(call.named)) lines += line + "\n";
        return tagged(call.request, {200, "application/jsonl", lines, ""});
    });
}

Answer batch_result(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        const std::string& name = call.option("name");
        auto bytes = desk.result(call.named, name);
        if (!bytes) throw Refused(problems::nothing_there, fmt::format("this batch has no file {} so far", input::quoted(name)));
        const bool pdf = name.ends_with(".pdf");
        return tagged(call.request, {200, pdf ? "application/pdf" : "application/json", std::move(*bytes), ""});
    });
}

Answer batch_events(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        (void)counts_of(desk, call.named);
        const std::string& after = call.option("after");
        const std::size_t number = after == "0" ? 0 : number_in(call, "after", most_events);
        const Outcomes outcomes = desk.ended_after(call.named, static_cast<std::int64_t>(number));
        return Answer{200, "text/event-stream", events_text(outcomes, counts_json(counts_of(desk, call.named))), ""};
    });
}

Answer cancel_a_batch(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        if (!desk.cancel(call.named)) refuse_unknown(call.named);
        Answer answer = batch_answer(counts_of(desk, call.named), 200);
        answer.location.clear();
        return answer;
    });
}

Answer forget_a_batch(const Call& call, const Workshop& workshop) {
    return at_desk(workshop, [&](Desk& desk) {
        if (!desk.forget(call.named)) refuse_unknown(call.named);
        constexpr unsigned no_content = 204;
        return Answer{no_content, "", "", ""};
    });
}

}  // namespace wayfolio::service
