#include "service/answers/problem.hpp"

#include "evaluate/written/json_text.hpp"
#include "text/shaper.hpp"

#include <new>

namespace wayfolio::service {
namespace {

constexpr ProblemKind kinds[] = {problems::malformed,
                                 problems::unknown_option,
                                 problems::no_token,
                                 problems::foreign,
                                 problems::no_route,
                                 problems::nothing_there,
                                 problems::no_records,
                                 problems::no_batches,
                                 problems::wrong_method,
                                 problems::slow,
                                 problems::record_changed,
                                 problems::too_large,
                                 problems::wrong_type,
                                 problems::faulty,
                                 problems::key_used,
                                 problems::busy,
                                 problems::too_many_connections,
                                 problems::head_too_large,
                                 problems::failed,
                                 problems::not_kept,
                                 problems::late,
                                 problems::closing,
                                 problems::no_memory};

}  // namespace

std::span<const ProblemKind> problem_kinds() { return kinds; }

Answer problem(const ProblemKind& kind, std::string_view detail, const std::vector<input::Problem>& faults) {
    evaluate::Json json{
        {"type", "/v1/problems#" + std::string(kind.code)}, {"title", kind.title}, {"status", kind.status}, {"code", kind.code}};
    if (!detail.empty()) json["detail"] = detail;
    if (!faults.empty()) json["faults"] = evaluate::Json::array();
    for (const input::Problem& fault : faults) json["faults"].push_back(evaluate::fault_json(fault));
    return {kind.status, "application/problem+json", evaluate::to_text(json), ""};
}

Answer problem_of(std::exception_ptr thrown) {
    try {
        std::rethrow_exception(std::move(thrown));
    } catch (const Refused& refused) { return problem(refused.kind(), refused.what()); } catch (const input::InputRejected& rejected) {
        return problem(problems::faulty, "", rejected.problems());
    } catch (const input::InputMissing& missing) {
        return problem(problems::faulty, missing.what());
    } catch (const text::GlyphMissing& missing) { return problem(problems::faulty, missing.what()); } catch (const std::bad_alloc&) {
        return problem(problems::no_memory);
    } catch (const std::exception& error) { return problem(problems::failed, error.what()); }
}

}  // namespace wayfolio::service
