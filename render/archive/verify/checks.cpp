#include "archive/verify/checks.hpp"
#include "archive/verify/pdf_content.hpp"
#include "archive/verify/verify.hpp"
#include "input/customer_copy.hpp"
#include "input/digest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace wayfolio::archive {
namespace {

Holds holds_if(bool so) { return so ? Holds::Yes : Holds::No; }

std::vector<ListedFile> all_listed(const Making& making) {
    std::vector<ListedFile> all{making.document};
    all.insert(all.end(), making.side_files.begin(), making.side_files.end());
    all.insert(all.end(), making.layouts.begin(), making.layouts.end());
    return all;
}

/// The digest that the list speaks of: a record keeps the document as given, the list has the customer's copy.
std::string listed_digest(const std::string& name, const std::string& bytes) {
    if (name != produce::kept::document) return input::sha256_hex(bytes);
    try {
        return input::sha256_hex(input::customer_copy(bytes).bytes);
    } catch (const input::InputRejected&) {  // so damaged that it is not JSON any more
        return input::sha256_hex(bytes);
    }
}

/// A file that does not travel inside: where it should lie, it must be the one that was read.
void look_apart(const Making& making, const ListedFile& listed, std::vector<std::string>& changes) {
    try {
        if (!making.apart) throw input::InputMissing(listed.file, "cannot be had here");
        input::Digest digest(input::DigestKind::Sha256);
        input::read_in_pieces(making.apart(listed.file), [&](std::string_view piece) { digest.add(piece); });
        if (digest.hex() != listed.sha256) changes.push_back(listed.file + ": changed (its SHA-256 is not the one listed)");
    } catch (const input::InputMissing& missing) {
        changes.push_back(listed.file + ": too large to travel inside, and not beside it: " + missing.what());
    }
}

}  // namespace

bool Verification::sound() const {
    return std::ranges::none_of(checks, [](const Check& check) { return check.holds == Holds::No; });
}

bool Verification::by_other_build() const { return std::ranges::any_of(checks, &Check::other_build); }

std::vector<std::string> lines_of(const input::InputRejected& rejected) {
    std::vector<std::string> lines;
    for (const input::Problem& problem : rejected.problems()) lines.push_back(input::to_text(problem));
    return lines;
}

std::vector<std::string> changed_files(const Making& making) {
    std::vector<std::string> changes;
    for (const ListedFile& listed : all_listed(making)) {
        const auto found = making.files.find(listed.file);
        if (found == making.files.end() && listed.apart) look_apart(making, listed, changes);
        else if (found == making.files.end()) changes.push_back(listed.file + ": missing");
        else if (listed_digest(listed.file, found->second) != listed.sha256)
            changes.push_back(listed.file + ": changed (its SHA-256 is not the one listed)");
    }
    return changes;
}

Check check_kept_files(const Making& making, std::string_view of_another_check) {
    Check check{.what = "files carried, by their digests", .details = changed_files(making)};
    std::set<std::string, std::less<>> known{std::string(produce::kept::inputs), std::string(produce::kept::evaluation),
                                             std::string(of_another_check)};
    for (const ListedFile& listed : all_listed(making)) known.insert(listed.file);
    for (const auto& [name, bytes] : making.files)
        if (!known.contains(name)) check.details.push_back(name + ": added; the list does not name it");
    check.holds = holds_if(check.details.empty());
    return check;
}

VersionCheck check_versions(const Making& making, const LibraryVersions& now, const text::Shaper& shaper) {
    VersionCheck check{{.what = "versions of program, libraries and fonts"}};
    for (const LibraryVersion& then : making.versions) {
        const auto found = std::ranges::find(now, then.name, &LibraryVersion::name);
        if (found != now.end() && found->version == then.version) continue;
        check.details.push_back(
            fmt::format("made with {} {}, now {}", then.name, then.version, found == now.end() ? "unknown" : found->version));
        check.other_program |= then.name.starts_with("wayfolio");
    }
    if (std::ranges::find(making.versions, "wayfolio-build", &LibraryVersion::name) == making.versions.end()) {
        check.details.emplace_back("made by a build that the list of inputs does not name");
        check.other_program = true;
    }
    for (const auto& font : shaper.fonts()) {
        const auto found = std::ranges::find(making.fonts, font.file, &ListedFile::file);
        if (found == making.fonts.end() || found->sha256 != font.sha256)
            check.details.push_back(font.file + ": a different font file");
    }
    if (!check.details.empty()) check.holds = Holds::NotShown;
    return check;
}

Check check_numbers(const std::string& kept, const std::string& fresh, const std::string& what, const VersionCheck& versions) {
    Check check{.what = what, .details = number_differences(kept, fresh)};
    if (check.details.empty()) return check;
    check.other_build = versions.other_program;
    check.holds = check.other_build ? Holds::NotShown : Holds::No;
    return check;
}

Check check_certificate(const std::string& kept, const std::string& fresh, const VersionCheck& versions) {
    Check check{.what = "draft of the certificate, recreated"};
    if (kept == fresh) return check;
    const std::string name(produce::kept::certificate);
    const bool both = !kept.empty() && !fresh.empty();
    if (both && versions.holds != Holds::Yes)
        return {.what = check.what, .holds = Holds::NotShown, .details = {name + ": different text from a different version or build"},
                .other_build = versions.other_program};
    return {.what = check.what,
            .holds = Holds::No,
            .details = {name + (both           ? ": changed"
                                : kept.empty() ? ": missing, though the layout asks for it"
                                               : ": added; the layout asks for none")}};
}

Check check_drawing(const std::string& kept, const std::string& fresh, const std::string& what, const VersionCheck& versions) {
    Check check{.what = what};
    if (kept == fresh) return check;
    try {
        const PdfContent there = content_of(kept, what);
        PdfDifferences found = differences(there, content_of(fresh, what));
        check.details = there.warnings;
        check.details.insert(check.details.end(), found.words.begin(), found.words.end());
        check.details.insert(check.details.end(), found.drawing.begin(), found.drawing.end());
        const bool same_versions = versions.holds == Holds::Yes;
        if (check.details.empty() && same_versions)
            check.details.push_back("the bytes differ, but words and drawing are the same: the file was changed after it was made");
        if (check.details.empty()) check.details.push_back("different bytes from different versions; words and drawing are the same");
        // Another library may place a line elsewhere; another build of this program may also say other words. None makes damage.
        const bool changed = same_versions || !there.warnings.empty() || (!found.words.empty() && !versions.other_program);
        check.other_build = !changed && versions.other_program && !found.none();
        check.holds = changed ? Holds::No : found.none() ? Holds::Yes : Holds::NotShown;
    } catch (const input::InputRejected& rejected) {
        check.details = lines_of(rejected);
        check.holds = Holds::No;
    }
    return check;
}

Check check_against(const std::string& given, const std::string& found) {
    constexpr std::size_t least = 16;
    std::string digits = given.starts_with("sha256:") ? given.substr(7) : given;
    std::ranges::transform(digits, digits.begin(), [](char c) { return c >= 'A' && c <= 'F' ? static_cast<char>(c + ('a' - 'A')) : c; });
    Check check{.what = "fingerprint compared with the one given"};
    if (digits.size() >= least && found.starts_with(digits)) return check;
    check.holds = Holds::No;
    check.details.push_back(digits.size() < least ? fmt::format("give at least {} digits of the fingerprint", least)
                                                  : fmt::format("found {}, given {}", found, digits));
    return check;
}

}  // namespace wayfolio::archive
