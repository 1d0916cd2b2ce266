#include "archive/record/making.hpp"
#include "archive/record/record.hpp"
#include "archive/verify/checks.hpp"
#include "archive/verify/verify.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;

Holds holds_when(bool so) { return so ? Holds::Yes : Holds::No; }

/// Every file of the payload against the one that the inputs give again.
void check_payload(const fs::path& bag, const Files& fresh, const VersionCheck& versions, Verification& verdict) {
    Check others{.what = "figures, tables and metadata, recreated"};
    for (const auto& [path, bytes] : fresh) {
        std::error_code none;
        const fs::path file = bag / "data" / path;
        if (!fs::is_regular_file(file, none)) {
            others.details.push_back(path + ": missing");
            continue;
        }
        const std::string kept = input::read_regular_file(file);
        if (path == "evaluation.json") verdict.checks.push_back(check_numbers(kept, bytes, "numbers, evaluated again", versions));
        else if (path == "report.pdf") verdict.checks.push_back(check_drawing(kept, bytes, "pages of the report, drawn again", versions));
        else if (kept != bytes)
            others.details.push_back(
                path + (versions.holds == Holds::Yes ? ": differs from what the data give" : ": other bytes by another version or build"));
    }
    others.other_build = !others.details.empty() && versions.other_program;
    if (!others.details.empty()) others.holds = versions.holds == Holds::Yes ? Holds::No : Holds::NotShown;
    verdict.checks.push_back(std::move(others));
}

Check check_fingerprint(const fs::path& bag, const std::string& found) {
    Check check{.what = "fingerprint in bag-info.txt"};
    if (bag_info(bag, "Wayfolio-Fingerprint") == "sha256:" + found) return check;
    return {.what = check.what, .holds = Holds::No, .details = {"the fingerprint in bag-info.txt differs from that of the list of inputs"}};
}

/// A revision that bears another one's number would be taken for it.
Check check_folder_name(const fs::path& bag) {
    Check check{.what = "the folder is named by its revision"};
    std::error_code none;
    const std::string name = fs::weakly_canonical(bag, none).filename().string(), number = bag_info(bag, "Wayfolio-Revision");
    if (number.empty() || !name.starts_with("revision-") || name == "revision-" + number) return check;
    return {.what = check.what, .holds = Holds::No, .details = {fmt::format("{} holds revision {}", name, number)}};
}

void check_revision(const fs::path& bag, const text::Shaper& shaper, Verification& verdict) {
    Check files{.what = "manifests: every file is there and unchanged, and no other file", .details = bag_faults(bag)};
    files.holds = holds_when(files.details.empty());
    verdict.checks.push_back(std::move(files));
    verdict.checks.push_back(check_folder_name(bag));
    try {
        const Making making = kept_from(bag);
        verdict.fingerprint = making.fingerprint;
        verdict.checks.push_back(check_kept_files(making));
        const Remade remade = remake(making);
        const VersionCheck versions = check_versions(making, produce::versions_in_use(remade.document), shaper);
        const produce::Drawing drawing{remade.document, remade.evaluation, remade.layout, shaper, making.versions};
        if (auto readings = check_readings(remade.document)) verdict.checks.push_back(*std::move(readings));
        if (auto environment = check_environment(remade.document)) verdict.checks.push_back(*std::move(environment));
        if (auto facts = check_facts(remade.document)) verdict.checks.push_back(*std::move(facts));
        if (auto failed = failure_of("figures, tables and metadata, recreated",
                                     [&] { check_payload(bag, payload_of(drawing), versions, verdict); }))
            verdict.checks.push_back(*std::move(failed));
        verdict.checks.push_back(versions);
        verdict.checks.push_back(check_fingerprint(bag, making.fingerprint));
    } catch (const input::InputRejected& rejected) {
        verdict.checks.push_back({.what = "everything that is needed can be read", .holds = Holds::No, .details = lines_of(rejected)});
    } catch (const input::InputMissing& missing) {
        verdict.checks.push_back({.what = "everything that is needed can be read", .holds = Holds::No, .details = {missing.what()}});
    }
}

/// Every revision but the first names the one before it.
Check check_chain(const std::vector<Revision>& revisions) {
    Check check{.what = "revisions follow each other"};
    for (std::size_t i = 0; i < revisions.size(); ++i) {
        const std::string names = bag_info(revisions[i].folder, "Wayfolio-Replaces"), name = revisions[i].folder.filename().string();
        const std::string before = i == 0 ? "" : revisions[i - 1].folder.filename().string();
        if (names == before) continue;
        if (names.empty()) check.details.push_back(fmt::format("{} names no revision that it replaces, but {} is there", name, before));
        else
            check.details.push_back(
                fmt::format("{} replaces {}, which is {}", name, names, before.empty() ? "missing" : "not the one before it"));
    }
    check.holds = holds_when(check.details.empty());
    return check;
}

Check check_unfinished(const fs::path& folder) {
    Check check{.what = "nothing unfinished"};
    for (const std::string& name : unfinished_in(folder)) check.details.push_back(name + ": left by an interrupted run; may be deleted");
    if (!check.details.empty()) check.holds = Holds::NotShown;
    return check;
}

Check check_added(const fs::path& folder) {
    Check check{.what = "nothing beside the revisions"};
    for (const std::string& name : strangers_in(folder)) check.details.push_back(name + ": added; it is no revision of this record");
    check.holds = holds_when(check.details.empty());
    return check;
}

}  // namespace

Verification verify_record(const fs::path& folder, const VerifyRequest& request) {
    require_verifiable_folder(folder);
    Verification verdict{.file = folder.string(), .fingerprint = {}, .checks = {}, .against_given = !request.against.empty()};
    const std::vector<Revision> revisions = is_bag(folder) ? std::vector<Revision>{} : revisions_in(folder);
    if (is_bag(folder)) check_revision(folder, request.shaper, verdict);
    for (const Revision& revision : revisions) {
        Verification one{.file = revision.folder.string(), .fingerprint = {}, .checks = {}};
        check_revision(revision.folder, request.shaper, one);
        for (Check& check : one.checks) {
            check.what = revision.folder.filename().string() + ": " + check.what;
            verdict.checks.push_back(std::move(check));
        }
        verdict.fingerprint = one.fingerprint;
    }
    if (!is_bag(folder) && revisions.empty())
        verdict.checks.push_back(
            {.what = "a finished revision", .holds = Holds::No, .details = {"the folder has no finished revision"}});
    if (!is_bag(folder)) {
        if (!revisions.empty()) verdict.checks.push_back(check_chain(revisions));
        verdict.checks.push_back(check_added(folder));
        verdict.checks.push_back(check_unfinished(folder));
    }
    if (verdict.against_given) verdict.checks.push_back(check_against(request.against, verdict.fingerprint));
    return verdict;
}

}  // namespace wayfolio::archive
