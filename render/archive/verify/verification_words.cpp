#include "archive/verify/verify.hpp"
#include "evaluate/written/json_text.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

namespace wayfolio::archive {
namespace {

using evaluate::Json;

struct Proof {
    std::vector<std::string> shown, not_shown;
};

/// What the checks prove, and what they cannot: who rewrites the data and draws again gets a file in which everything agrees.
Proof proof_of(const Verification& verdict) {
    Proof words;
    const bool compared = verdict.sound() && !verdict.by_other_build();
    if (compared) words.shown.emplace_back("no accidental change");
    if (verdict.sound() && !compared) {
        words.shown.emplace_back("no accidental change of the data carried, by their digests");
        words.not_shown.emplace_back(
            "a change of pages and numbers: another version or build of wayfolio made them, and this one says, draws or evaluates them "
            "otherwise; verify with that one");
    }
    if (verdict.sound() && verdict.against_given)
        words.shown.emplace_back("no deliberate rewriting of data and report: the fingerprint is the one given");
    if (!verdict.against_given)
        words.not_shown.emplace_back(
            "deliberate rewriting of data and report: give --against with a fingerprint kept separately, or check a signature");
    return words;
}

std::string_view verdict_words(const Verification& verdict) {
    if (!verdict.sound()) return "CHANGED";
    return verdict.by_other_build() ? "made by another version or build, which can be compared only in part" : "unchanged";
}

std::string_view word_for(Holds holds) {
    switch (holds) {
        case Holds::Yes: return "holds";
        case Holds::No: return "fails";
        case Holds::NotShown: return "not shown";
    }
    return {};
}

}  // namespace

std::string verification_text(const Verification& verdict) {
    std::string text = fmt::format("{}: {}\n", input::printable(verdict.file), verdict_words(verdict));
    if (!verdict.fingerprint.empty()) text += fmt::format("  fingerprint sha256:{}\n", verdict.fingerprint);
    for (const Check& check : verdict.checks) {
        text += fmt::format("  {:<10} {}\n", word_for(check.holds), input::printable(check.what));
        for (const std::string& detail : check.details) text += fmt::format("             - {}\n", input::printable(detail));
    }
    const Proof words = proof_of(verdict);
    for (const std::string& line : words.shown) text += fmt::format("  Shown: {}.\n", line);
    for (const std::string& line : words.not_shown) text += fmt::format("  Not detectable: {}.\n", line);
    return text;
}

std::string verification_json(const Verification& verdict) {
    Json json{{"format", "wayfolio-verification"}, {"version", 1}, {"file", verdict.file}, {"sound", verdict.sound()}};
    if (!verdict.fingerprint.empty()) json["fingerprint"] = "sha256:" + verdict.fingerprint;
    json["checks"] = Json::array();
    for (const Check& check : verdict.checks) {
        const std::string outcome = check.holds == Holds::NotShown ? "not_shown" : std::string(word_for(check.holds));
        json["checks"].push_back({{"what", check.what}, {"outcome", outcome}, {"details", check.details}});
    }
    const Proof words = proof_of(verdict);
    json["shown"] = words.shown;
    json["not_shown"] = words.not_shown;
    return evaluate::to_text(json);
}

}  // namespace wayfolio::archive
