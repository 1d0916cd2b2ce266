#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/review/lacking.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

namespace wayfolio::evaluate {
namespace {

/// "title; date of issue; the customer; and 3 more"
std::string named(const std::vector<std::string>& things) {
    constexpr std::size_t shown = 4;
    std::string text;
    for (std::size_t i = 0; i < std::min(things.size(), shown); ++i) text += (i == 0 ? "" : "; ") + things[i];
    if (things.size() > shown) text += fmt::format("; and {} more", things.size() - shown);
    return text;
}

void add_lacking(std::vector<BeforeLeaving>& lines, const Evaluation& evaluation) {
    // Clauses of one document share a line: "ISO/IEC 17025 7.8.2.1 j" counts for ISO/IEC 17025.
    const auto head = [](const std::string& purpose) {
        constexpr std::string_view clause = "ISO/IEC 17025";
        return purpose.starts_with(clause) ? std::string(clause) : purpose;
    };
    std::vector<std::pair<std::string, std::vector<const Lack*>>> purposes;
    for (const Lack& lack : evaluation.lacking) {
        if (at_machine(code_of(lack))) continue;  // told as evidence
        auto known = std::find_if(purposes.begin(), purposes.end(), [&](const auto& p) { return p.first == head(lack.purpose); });
        if (known == purposes.end()) known = purposes.insert(purposes.end(), {head(lack.purpose), {}});
        known->second.push_back(&lack);
    }
    for (const auto& [purpose, lacks] : purposes) {
        std::vector<std::string> things;
        for (const Lack* lack : lacks) things.push_back(lack->what);
        lines.push_back({code_of_purpose(purpose), fmt::format("missing for {}: {}", purpose, named(things)),
                         fmt::format("the document ({})", lacks.front()->pointer), "certain",
                         "note it down while you can still look at the machine's plate and ask the customer"});
    }
}

const char* act_for(FindingCode code) {
    switch (code) {
        case FindingCode::CertificateExpired:
        case FindingCode::CalibratedAfterMeasurement:
            return "measure with an instrument that is in date, or get the certificate that covers the measurement";
        case FindingCode::TargetsUnread:
            return "read the targets that are open, or take them off the list";
        case FindingCode::TargetsReadOneWay:
            return "read these targets in the other approach too";
        case FindingCode::StatedValueDiffers:
            return "find out which value is right, and correct the document";
        default:
            return "know it when you read the results";
    }
}

/// "series x (/series/0/runs)", "instrument laser (/instruments/0/due)"
std::string place_of(const document::Document& document, const std::string& pointer) {
    const auto named_in = [&](std::string_view list, const char* kind, const auto& entries) -> std::string {
        std::size_t place = 0;
        if (!pointer.starts_with(list)) return {};
        const auto read = std::from_chars(pointer.data() + list.size(), pointer.data() + pointer.size(), place);
        return read.ec == std::errc() && place < entries.size() ? fmt::format("{} {} ({})", kind, entries[place].id, pointer) : "";
    };
    std::string text = named_in("/series/", "series", document.series);
    if (text.empty()) text = named_in("/instruments/", "instrument", document.instruments);
    return text.empty() ? fmt::format("the document ({})", pointer) : text;
}

}  // namespace

void add_paper_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (const Warning& warning : evaluation.warnings) {
        // Told with the set-up.
        constexpr std::array told{FindingCode::CosineError, FindingCode::CosineNotResolved, FindingCode::BiasNotCorrected,
                                  FindingCode::AirCorrectionNotPossible};
        if (std::find(told.begin(), told.end(), warning.code) != told.end()) continue;
        lines.push_back({warning.code, warning.text, place_of(document, warning.pointer), "certain", act_for(warning.code)});
    }
    add_lacking(lines, evaluation);
}

}  // namespace wayfolio::evaluate
