#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "evaluate/review/site/findings.hpp"
#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "support/all_documents.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cctype>
#include <regex>
#include <set>
#include <span>

using namespace wayfolio;

namespace {

/// What no page and no finding says any more, in small letters, and what is said instead.
struct Replaced {
    std::string_view word, better;
};

constexpr std::array replaced_words{
    // The standards' terms.
    Replaced{"measuring line", "measurement line"}, Replaced{"measuring lines", "measurement lines"},
    Replaced{"tool point", "functional point"}, Replaced{"mean of both", "mean bi-directional deviation"},
    Replaced{"both directions", "bi-directional, or both approaches"},
    Replaced{"bidirectional", "bi-directional"}, Replaced{"straightness x", "straightness error of ... in X"},
    Replaced{"straightness y", "straightness error of ... in Y"}, Replaced{"straightness z", "straightness error of ... in Z"},
    Replaced{"scatter", "standard deviation"}, Replaced{"contributor", "input quantity"}, Replaced{"contributors", "input quantities"},
    Replaced{"second opinion", "Monte Carlo validation"}, Replaced{"guard band on both sides", "guarded acceptance and rejection"},
    Replaced{"stated capability", "calibration and measurement capability (CMC)"}, Replaced{"index of the air", "refractive index"},
    Replaced{"round the circle", "polar plot"}, Replaced{"reading off", "possible outlier"}, Replaced{"wave", "periodic error"},
    // One word for one thing.
    Replaced{"each direction", "each approach"}, Replaced{"one direction", "one approach"},
    Replaced{"positive direction", "positive approach"}, Replaced{"negative direction", "negative approach"},
    Replaced{"forward", "positive approach"}, Replaced{"backward", "negative approach"}, Replaced{"set aside", "excluded"},
    Replaced{"lacking", "missing"}, Replaced{"lacks", "misses"}, Replaced{"surroundings", "environment"},
    // Short main clauses.
    Replaced{"from memory", "once, in the method"}, Replaced{"stands in the way", "nothing left to do"},
    Replaced{"do not close", "the reversal error changes along the axis"}, Replaced{"how sure", "basis"},
    Replaced{"is past", "exceeds"}, Replaced{"not past", "does not exceed"}, Replaced{"short of it", "below the limit"},
    Replaced{"to decide", "undecided"}, Replaced{"printed also when nothing failed", "Failed or undecided"},
    Replaced{"set the error", "A is set by targets"}, Replaced{"as the rule keeps it", "the rule requires a guard band"},
    Replaced{"stand under", "see"}, Replaced{"the limits are those of", "Limits:"}, Replaced{"what stands first below", "the first line"},
    Replaced{"which was asked for", "with nu = 5, k = 2 covers about 90 %"}, Replaced{"the air stood between", "Air ... to ..."},
    Replaced{"there stands", "Formula"}, Replaced{"gives no angle an arm", "no lever arm"}, Replaced{"far too large", "exaggerated"},
    Replaced{"would raise any", "overall false-alarm rate"}, Replaced{"are no results", "are not measured"},
    Replaced{"nobody has rewritten", "not detectable: deliberate rewriting"}};

/// Findings name keys of the document, which has units and limits by these words; a page has no keys.
constexpr std::array words_of_keys{Replaced{"tolerance", "limit"}, Replaced{"tolerances", "limits"}, Replaced{"um", "µm"}};

/// Small letters, and one plain blank for every blank.
std::string plain(const std::string& text) {
    std::string all;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool no_break = text.compare(i, 2, "\u00a0") == 0, thin = text.compare(i, 3, "\u202f") == 0;
        i += no_break ? 1 : thin ? 2 : 0;
        const auto letter = static_cast<unsigned char>(text[i]);
        const bool blank = no_break || thin || std::isspace(letter) != 0;
        if (!blank) all += static_cast<char>(std::tolower(letter));
        else if (!all.ends_with(' ')) all += ' ';
    }
    return all;
}

bool stands_alone(const std::string& text, std::size_t at, std::size_t length) {
    const auto is_letter = [&](std::size_t place) {
        return place < text.size() && std::isalpha(static_cast<unsigned char>(text[place])) != 0;
    };
    return (at == 0 || !is_letter(at - 1)) && !is_letter(at + length);
}

/// Each word of the list that the text says, with some of what stands around it.
std::set<std::string> replaced_words_in(const std::string& text, std::span<const Replaced> replaced = replaced_words) {
    std::set<std::string> found;
    for (const Replaced& one : replaced)
        for (std::size_t at = text.find(one.word); at != std::string::npos; at = text.find(one.word, at + 1)) {
            if (!stands_alone(text, at, one.word.size())) continue;
            constexpr std::size_t around = 40;
            const std::size_t from = at < around ? 0 : at - around;
            const std::string place = text.substr(from, one.word.size() + 2 * around);
            found.insert(std::string(one.word) + " (" + std::string(one.better) + "): ..." + place);
            break;
        }
    return found;
}

/// Every word of the pages, of what is read aloud for a figure, and of the bookmarks.
std::string words_on_pages(const std::vector<frame::Frame>& pages) {
    std::string words;
    for (const frame::Frame& page : pages) {
        frame::walk(page.items, [&](const frame::GlyphRun& run) { words += run.text + " "; });
        frame::walk(page.items, [&](const frame::Group& group) { words += group.alternative + " "; });
        frame::walk(page.items, [&](const frame::Bookmark& bookmark) { words += bookmark.title + " "; });
    }
    return words;
}

}  // namespace

TEST_CASE("no page and no finding of any sample or awkward document says what has a better word", "[slow][again]") {
    const auto layout = layouts::read_layout("report", "A4");
    const auto paths = testing::documents_in({"sample-results", "sample-results/visits", "tests/golden/awkward"});
    for (const auto& path : paths) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        const std::string pages = words_on_pages(produce::report_pages({document, evaluation, layout, testing::shaper()}));
        INFO(path.filename().string());
        CHECK(replaced_words_in(plain(pages)) == std::set<std::string>{});
        CHECK(replaced_words_in(plain(pages), words_of_keys) == std::set<std::string>{});
        // Codes and the names of files are no words of ours.
        static const std::regex code(R"(\[[a-z0-9-]+\])");
        std::string findings = std::regex_replace(evaluate::findings_text(evaluate::findings(document, evaluation)), code, "");
        for (std::size_t at; (at = findings.find(document.file)) != std::string::npos;) findings.erase(at, document.file.size());
        CHECK(replaced_words_in(plain(findings)) == std::set<std::string>{});
    }
    CHECK(paths.size() > 25);
}

TEST_CASE("the search for replaced words finds them alone, over blanks of any kind, and says what is better") {
    const std::set<std::string> found = replaced_words_in(plain("the Tool\u00a0point;  wavelength"));
    CHECK(found == std::set<std::string>{"tool point (functional point): ...the tool point; wavelength"});
    CHECK(replaced_words_in(plain("wavelength 0.633 \u00b5m, functional point")).empty());
}
