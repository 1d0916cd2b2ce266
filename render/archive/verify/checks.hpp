#pragma once
#include "archive/verify/verify.hpp"

#include <filesystem>
#include <new>
#include <optional>
#include <string>
#include <vector>

/// What verify_pdf() and verify_record() look at. Private to this room.
namespace wayfolio::archive {

// What can be verified at all. What may be a damaged PDF or record of ours is let through: that is for the verdict to say.

/// @throws NothingToVerify for bytes that are no PDF, or a sound PDF that another program made
void require_verifiable(const std::string& bytes, const std::string& name);

/// @throws NothingToVerify for a folder that holds something, but nothing of a record
void require_verifiable_folder(const std::filesystem::path& folder);

// Checks.

/// A failed check where `draw` throws because of what it is given; what is wrong with this program's own fonts or memory goes on.
template <class Draw>
std::optional<Check> failure_of(const std::string& what, const Draw& draw) {
    try {
        draw();
        return std::nullopt;
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const text::FontFailed&) {
        throw;
    } catch (const input::InputRejected&) {
        throw;  // its faults are told one by one
    } catch (const std::exception& error) {
        return Check{.what = what, .holds = Holds::No, .details = {std::string("cannot be drawn any more: ") + error.what()}};
    }
}

/// Listed files that are missing, or whose SHA-256 is not the one listed: each in one line.
std::vector<std::string> changed_files(const Making& making);
/// Each listed file is there with the digest that it had, and nothing else is but a file that another check looks at.
Check check_kept_files(const Making& making, std::string_view of_another_check = {});
/// What made the file against what verifies it.
struct VersionCheck : Check {
    bool other_program = false;  ///< another version or build of this program, which may say, draw and evaluate otherwise
};

/// The program, fonts and libraries of now against those listed: where libraries differ, only content can be compared.
VersionCheck check_versions(const Making& making, const LibraryVersions& now, const text::Shaper& shaper);
/// The kept evaluation against one made again. Another version or build may evaluate otherwise: then nothing is shown.
Check check_numbers(const std::string& kept, const std::string& fresh, const std::string& what, const VersionCheck& versions);
/// Every reading whose exports and mapping are kept against what they give when they are gathered again; nothing where none is kept.
/// A reading that was set aside later is told, and is no fault.
std::optional<Check> check_readings(const document::Document& document);
/// The same of the samples of the environment.
std::optional<Check> check_environment(const document::Document& document);
/// Facts whose files are kept against the document that they went into; nothing where none is kept. A logo is not looked at.
std::optional<Check> check_facts(const document::Document& document);
/// The carried draft of a certificate against one written again; each is empty where there is none.
Check check_certificate(const std::string& kept, const std::string& fresh, const VersionCheck& versions);
/// A kept PDF against one drawn again: bytes, else words and drawing.
Check check_drawing(const std::string& kept, const std::string& fresh, const std::string& what, const VersionCheck& versions);
/// A kept PDF against what `draw` gives. Changed data may be such that nothing can be drawn of them any more.
template <class Draw>
Check check_drawn_again(const std::string& kept, const std::string& what, const VersionCheck& versions, const Draw& draw) {
    std::string fresh;
    if (const auto failed = failure_of(what, [&] { fresh = draw(); })) return *failed;
    return check_drawing(kept, fresh, what, versions);
}
/// A fingerprint from elsewhere against the one found here.
Check check_against(const std::string& given, const std::string& found);
/// The faults of a file that could not be read.
std::vector<std::string> lines_of(const input::InputRejected& rejected);
/// The fingerprint of the carried list against those that the file states: in its Info dictionary (/Keywords) and twice in XMP.
Check check_stated_fingerprint(const std::string& pdf, const Making& making);
/// Where two evaluations (JSON texts) differ: one line for each value, with its JSON Pointer, as kept and as evaluated again.
/// Empty when they say the same. A text that is not JSON is one difference.
std::vector<std::string> number_differences(const std::string& kept, const std::string& fresh);

}  // namespace wayfolio::archive
