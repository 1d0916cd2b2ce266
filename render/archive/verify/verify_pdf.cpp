#include "archive/record/making.hpp"
#include "archive/verify/checks.hpp"
#include "archive/verify/verify.hpp"

namespace wayfolio::archive {
namespace {

/// Numbers and drawing, each made again from the kept files.
void check_made_again(const std::string& pdf, const Making& making, const text::Shaper& shaper, Verification& verdict) {
    const Remade remade = remake(making);
    const VersionCheck versions = check_versions(making, produce::versions_in_use(remade.document), shaper);
    // With the versions that the list names, so that the fingerprint in every foot is the one that was drawn.
    const produce::Drawing drawing{remade.document, remade.evaluation, remade.layout, shaper, making.versions};
    const auto kept = making.files.find(produce::kept::evaluation);
    Check numbers{
        .what = "numbers, evaluated again", .holds = Holds::No, .details = {std::string(produce::kept::evaluation) + ": missing"}};
    if (kept != making.files.end())
        numbers = check_numbers(kept->second, produce::kept_evaluation(drawing, produce::inputs_of(drawing, making.product)), numbers.what,
                                versions);
    verdict.checks.push_back(std::move(numbers));
    if (auto readings = check_readings(remade.document)) verdict.checks.push_back(*std::move(readings));
    if (auto environment = check_environment(remade.document)) verdict.checks.push_back(*std::move(environment));
    if (auto facts = check_facts(remade.document)) verdict.checks.push_back(*std::move(facts));
    verdict.checks.push_back(versions);
    const auto draft = making.files.find(produce::kept::certificate);
    const auto fresh = making.product.is_report() ? produce::certificate_attachment(drawing) : std::nullopt;
    if (draft != making.files.end() || fresh)
        verdict.checks.push_back(check_certificate(draft == making.files.end() ? "" : draft->second, fresh ? fresh->bytes : "", versions));
    verdict.checks.push_back(check_drawn_again(pdf, "pages, drawn again", versions, [&] { return draw_pdf(drawing, making); }));
}

}  // namespace

Verification verify_pdf(const std::string& pdf, const std::string& name, const VerifyRequest& request) {
    require_verifiable(pdf, name);
    Verification verdict{.file = name, .fingerprint = {}, .checks = {}, .against_given = !request.against.empty()};
    try {
        const Making making = read_making(carried_files(pdf, name), name, request.folder.empty() ? Apart() : beside(request.folder));
        verdict.fingerprint = making.fingerprint;
        verdict.checks.push_back(check_kept_files(making, produce::kept::certificate));
        verdict.checks.push_back(check_stated_fingerprint(pdf, making));
        check_made_again(pdf, making, request.shaper, verdict);
    } catch (const NotOneResult&) {
        throw;  // nothing is wrong with it: it is the wrong thing to verify
    } catch (const input::InputRejected& rejected) {
        verdict.checks.push_back({.what = "everything that is needed can be read", .holds = Holds::No, .details = lines_of(rejected)});
    }
    if (verdict.against_given) verdict.checks.push_back(check_against(request.against, verdict.fingerprint));
    return verdict;
}

}  // namespace wayfolio::archive
