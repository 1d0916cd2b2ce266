#include "output/picture/svg_scan.hpp"

#include "output/output.hpp"

#include <expat.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <string_view>
#include <vector>

namespace wayfolio::output {

namespace {

// What librsvg took for pictures at these limits was a few seconds and 300 MB at the most; logos stay far below all of them.
constexpr std::size_t deepest = 64;                        // elements in each other, and references in each other
constexpr std::size_t most_drawn = 20'000;                 // elements, each as often as it is referred to
constexpr std::size_t layer_weight = 20;                   // a mask takes as long as twenty plain elements
constexpr std::size_t most_style_work = 500'000'000;       // bytes of style sheets times elements: each rule is tried on each element
constexpr double most_outline_work = 40'000.0 * 40'000.0;  // bytes squared: every edge of an outline may cross every other

/// In each of these a few bytes can ask for any amount of drawing, in pixels or in repetitions.
constexpr std::array<std::string_view, 5> unbounded{"filter", "pattern", "marker", "image", "feImage"};
constexpr std::array<std::string_view, 9> drawn_as_pixels{"a",      "text",    "image",  "foreignObject", "mask",
                                                          "filter", "pattern", "switch", "style"};

bool is_one_of(const auto& names, std::string_view name) { return std::ranges::find(names, name) != names.end(); }

[[noreturn]] void refuse_svg(std::string found) {
    throw PictureRefused(std::move(found), "a plain SVG picture: shapes and text, well-formed, without filters, patterns, markers and "
                                           "pictures in it; or the same as PNG");
}

struct SvgElement {
    std::size_t weight = 1;
    bool is_gradient = false;  ///< a paint: it costs the same whatever it holds
    std::vector<std::size_t> kids;
    std::vector<std::string> references;
};

/// All "#id" in a text: how links, masks, clips and paints name an element.
void append_references(std::string_view text, std::vector<std::string>& to) {
    for (std::size_t at = text.find('#'); at != std::string_view::npos; at = text.find('#', at + 1))
        if (std::string id(text.substr(at + 1, text.find_first_of(")\"' ;,}", at + 1) - at - 1)); !id.empty()) to.push_back(std::move(id));
}

/// The name without its prefix.
std::string_view local_name(const XML_Char* name) {
    const std::string_view whole(name);
    return whole.substr(whole.find(':') + 1);  // npos + 1 is 0
}

class Scanner {
public:
    explicit Scanner(XML_Parser parser) : parser_(parser) {}

    void begin(const XML_Char* name, const XML_Char** attributes) {
        const std::string_view local = local_name(name);
        if (open_.size() >= deepest) return stop(fmt::format("an SVG picture with more than {} elements in each other", deepest));
        if (elements_.size() >= most_drawn) return stop(fmt::format("an SVG picture of more than {} elements", most_drawn));
        if (is_one_of(unbounded, local)) return stop(fmt::format("an SVG picture with an element <{}>", local));
        needs_pixels = needs_pixels || is_one_of(drawn_as_pixels, local);
        if (!open_.empty()) elements_[open_.back()].kids.push_back(elements_.size());
        open_.push_back(elements_.size());
        in_style_ = local == "style";
        SvgElement& made = elements_.emplace_back();
        if (local == "mask") made.weight = layer_weight;
        made.is_gradient = local.ends_with("Gradient");
        for (; *attributes; attributes += 2) take(local_name(attributes[0]), attributes[1], made);
    }
    void end() {
        open_.pop_back();
        in_style_ = false;
    }
    void letters(std::string_view text) {
        if (in_style_) sheets_ += text;
    }
    /// What only the whole can tell.
    void finish() {
        check_style(sheets_);
        if (sheets_.size() * elements_.size() > most_style_work) refuse_svg("an SVG picture with too long a style sheet for its elements");
        if (needs_pixels && outline_work_ > most_outline_work)
            refuse_svg("an SVG picture with outlines too long to be drawn as pixels, which its texts, masks or opacity ask for");
        std::vector<std::string> by_sheet;
        append_references(sheets_, by_sheet);
        std::size_t each = 1;
        for (const std::string& id : by_sheet)
            if (const auto found = ids_.find(id); found != ids_.end()) each += drawn(found->second, 0) - 1;
        if (elements_.empty() || drawn(0, 0) * each > most_drawn)
            refuse_svg(fmt::format("an SVG picture that draws more than {} elements by its references", most_drawn));
    }

    std::string refused{};
    bool needs_pixels = false;

private:
    void take(std::string_view name, std::string_view value, SvgElement& of) {
        if (name == "id") ids_.emplace(value, elements_.size() - 1);
        else append_references(value, of.references);
        if (name == "d" || name == "points") outline_work_ += static_cast<double>(value.size()) * static_cast<double>(value.size());
        if (name == "style") check_style(value);
        if (name == "filter" && value != "none") stop("an SVG picture with a filter");
    }
    /// A sheet may not bring a filter by a function, nor hide one behind an escape or in another sheet.
    void check_style(std::string_view style) {
        for (std::size_t at = style.find("filter"); at != std::string_view::npos; at = style.find("filter", at + 1)) {
            const std::size_t value = style.find_first_not_of(": \t\r\n", at + 6);
            if (value == std::string_view::npos || !style.substr(value).starts_with("none")) stop("an SVG picture with a filter");
        }
        if (style.find_first_of("\\") != std::string_view::npos || style.find("@import") != std::string_view::npos)
            stop("an SVG picture whose style sheet has escapes or imports");
    }
    /// How many elements are drawn with one, those that it refers to included; what refers to itself is not drawn again.
    std::size_t drawn(std::size_t place, std::size_t depth) {
        if (depth > 2 * deepest) refuse_svg(fmt::format("an SVG picture with more than {} references in each other", deepest));
        if (elements_[place].is_gradient) return 1;
        const auto [known, is_new] = drawn_.try_emplace(place, 0);
        if (!is_new) return known->second;
        std::size_t sum = elements_[place].weight;
        for (const std::size_t kid : elements_[place].kids) sum += drawn(kid, depth + 1);
        for (const std::string& id : elements_[place].references)
            if (const auto found = ids_.find(id); found != ids_.end()) sum += drawn(found->second, depth + 1);
        return drawn_[place] = std::min(sum, most_drawn + 1);
    }
    void stop(std::string why) {
        if (refused.empty()) refused = std::move(why);
        XML_StopParser(parser_, XML_FALSE);
    }

    XML_Parser parser_;
    std::vector<SvgElement> elements_;
    std::vector<std::size_t> open_;
    std::map<std::string, std::size_t, std::less<>> ids_;
    std::map<std::size_t, std::size_t> drawn_;
    std::string sheets_;
    bool in_style_ = false;
    double outline_work_ = 0;
};

Scanner& scanner_of(void* data) { return *static_cast<Scanner*>(data); }

}  // namespace

SvgScan scan_svg(const std::string& svg) {
    const std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser(XML_ParserCreate(nullptr), XML_ParserFree);
    if (!parser) throw std::bad_alloc();
    Scanner scanner(parser.get());
    XML_SetUserData(parser.get(), &scanner);
    XML_SetElementHandler(
        parser.get(), [](void* data, const XML_Char* name, const XML_Char** attributes) { scanner_of(data).begin(name, attributes); },
        [](void* data, const XML_Char*) { scanner_of(data).end(); });
    XML_SetCharacterDataHandler(parser.get(), [](void* data, const XML_Char* text, int length) {
        scanner_of(data).letters({text, static_cast<std::size_t>(length)});
    });
    if (XML_Parse(parser.get(), svg.data(), static_cast<int>(svg.size()), XML_TRUE) != XML_STATUS_OK) {
        if (!scanner.refused.empty()) refuse_svg(scanner.refused);
        refuse_svg(fmt::format("an SVG picture that is not well-formed: line {}, column {}: {}", XML_GetCurrentLineNumber(parser.get()),
                               XML_GetCurrentColumnNumber(parser.get()) + 1, XML_ErrorString(XML_GetErrorCode(parser.get()))));
    }
    for (const char* word : {"opacity", "mix-blend-mode", "isolation"})
        if (svg.find(word) != std::string::npos) scanner.needs_pixels = true;
    scanner.finish();
    if (!scanner.refused.empty()) refuse_svg(scanner.refused);
    return {scanner.needs_pixels};
}

}  // namespace wayfolio::output
