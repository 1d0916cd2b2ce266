#include "conformance/read/page_content.hpp"

#include <qpdf/QPDFPageObjectHelper.hh>

#include <algorithm>
#include <array>

namespace wayfolio::conformance {

namespace {

/// ISO 32000-1, table 51.
// clang-format off
constexpr auto known_operators = std::to_array<std::string_view>({
    "b", "B", "b*", "B*", "BDC", "BI", "BMC", "BT", "BX", "c", "cm", "CS", "cs", "d", "d0", "d1", "Do", "DP", "EI", "EMC", "ET", "EX",
    "f", "F", "f*", "G", "g", "gs", "h", "i", "ID", "j", "J", "K", "k", "l", "m", "M", "MP", "n", "q", "Q", "re", "RG", "rg", "ri",
    "s", "S", "SC", "sc", "SCN", "scn", "sh", "T*", "Tc", "Td", "TD", "Tf", "Tj", "TJ", "TL", "Tm", "Tr", "Ts", "Tw", "Tz",
    "v", "w", "W", "W*", "y", "'", "\""});
constexpr auto drawing_operators = std::to_array<std::string_view>({
    "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "Tj", "TJ", "'", "\"", "BI"});
// clang-format on

bool is_among(const auto& names, const std::string& name) { return std::ranges::find(names, name) != names.end(); }

/// Marked content that has begun.
struct Begun {
    bool artifact;
    int mark;  ///< -1 where it has no number
    bool has_actual_text;
    // With all that is around it, so that nobody need look through the levels again.
    int innermost = -1, artifacts = 0, tagged = 0;  ///< the innermost number; how many are artifacts; how many are that or have a number
    bool within_actual_text = false;
};

class Reader : public Handle::ParserCallbacks {
public:
    Reader(Handle page, PageContent& into)
        : fonts_(resources_of(page, "/Font")), properties_(resources_of(page, "/Properties")), into_(into) {}
    void handleObject(Handle object, std::size_t, std::size_t) override {
        if (!object.isOperator()) return operands_.push_back(object);
        take(object.getOperatorValue());
        operands_.clear();
    }
    void handleEOF() override { into_.unbalanced += static_cast<int>(begun_.size()); }

private:
    void take(const std::string& name) {
        if (!is_among(known_operators, name)) into_.unknown.insert(name);
        if (name == "BDC" || name == "BMC") open(name);
        if (name == "EMC") close();
        if (name == "q") into_.deepest_state = std::max(into_.deepest_state, ++saved_);
        if (name == "Q") --saved_;
        if (name == "k" || name == "K") into_.cmyk = true;
        if (name == "Tf" && operands_.size() == 2) font_ = operands_[0].getName();
        if (is_among(drawing_operators, name) && around().tagged == 0) ++into_.untagged;
        if ((name == "Tj" || name == "TJ" || name == "'" || name == "\"") && !operands_.empty()) show(operands_.back());
    }
    void open(const std::string& name) {
        Begun begun{!operands_.empty() && operands_[0].isNameAndEquals("/Artifact"), -1, false};
        Handle said = name == "BDC" && operands_.size() == 2 ? operands_[1] : Handle::newNull();
        if (said.isName()) said = properties_.getKey(said.getName());
        if (said.isDictionary()) {
            begun.has_actual_text = said.getKey("/ActualText").isString();
            if (said.getKey("/MCID").isInteger()) begun.mark = said.getKey("/MCID").getIntValueAsInt();
        }
        if (begun.mark >= 0 && !into_.marks.insert({begun.mark, {operands_[0].isName() ? operands_[0].getName() : "", false}}).second)
            into_.doubled.insert(begun.mark);
        const Begun outer = around();
        into_.nested_artifacts += begun.artifact ? outer.tagged : begun.mark >= 0 ? outer.artifacts : 0;
        begun.innermost = begun.mark >= 0 ? begun.mark : outer.innermost;
        begun.artifacts = outer.artifacts + (begun.artifact ? 1 : 0);
        begun.tagged = outer.tagged + (begun.artifact || begun.mark >= 0 ? 1 : 0);
        begun.within_actual_text = outer.within_actual_text || begun.has_actual_text;
        begun_.push_back(begun);
    }
    [[nodiscard]] Begun around() const { return begun_.empty() ? Begun{false, -1, false} : begun_.back(); }
    void close() {
        if (begun_.empty()) ++into_.unbalanced;
        else begun_.pop_back();
    }
    void show(Handle shown) {
        const bool two_bytes = fonts_.getKey(font_).isDictionary() && fonts_.getKey(font_).getKey("/Subtype").isNameAndEquals("/Type0");
        const int mark = around().innermost;
        const bool has_actual_text = around().within_actual_text;
        for (Handle part : shown.isArray() ? shown.getArrayAsVector() : std::vector<Handle>{shown}) {
            if (!part.isString()) continue;
            const std::string codes = part.getStringValue();
            const auto byte = [&](std::size_t at) { return static_cast<unsigned>(static_cast<unsigned char>(codes[at])); };
            if (!codes.empty() && mark >= 0) into_.marks.at(mark).shows_text = true;
            for (std::size_t at = 0; at + (two_bytes ? 1 : 0) < codes.size(); at += two_bytes ? 2 : 1)
                into_.shown.insert({font_, two_bytes ? byte(at) << 8U | byte(at + 1) : byte(at), mark, has_actual_text});
        }
    }

    Handle fonts_, properties_;
    PageContent& into_;
    std::vector<Handle> operands_;
    std::vector<Begun> begun_;
    std::string font_;
    int saved_ = 0;
};

}  // namespace

Handle resources_of(Handle page, const char* kind) {
    Handle all = QPDFPageObjectHelper(page).getAttribute("/Resources", /*copy_if_shared=*/false);
    Handle found = all.isDictionary() ? all.getKey(kind) : Handle::newNull();
    return found.isDictionary() ? found : Handle::newDictionary();
}

PageContent content_of(Handle page, unpack::StreamUnpacker& unpacker) {
    PageContent content;
    Reader reader(page, content);
    unpack::parse_content(unpacker.content(page.getKey("/Contents")), reader);
    return content;
}

}  // namespace wayfolio::conformance
