#include "conformance/page_content.hpp"

#include <qpdf/QPDFPageObjectHelper.hh>

#include <array>
#include <algorithm>

namespace wayfolio::conformance {

namespace {

bool draws(const std::string& name) {
    constexpr std::array<std::string_view, 17> drawing{"S",  "s",  "f",  "F",  "f*", "B",  "B*", "b",           "b*",
                                                       "sh", "Do", "Tj", "TJ", "'",  "\"", "BI", "INLINE_IMAGE"};
    return std::ranges::find(drawing, name) != drawing.end();
}

class Reader : public Handle::ParserCallbacks {
public:
    Reader(Handle resources, PageContent& into) : resources_(std::move(resources)), into_(into) {}
    void handleObject(Handle object, std::size_t, std::size_t) override {
        if (!object.isOperator()) return operands_.push_back(object);
        take(object.getOperatorValue());
        operands_.clear();
    }
    void handleEOF() override {}

private:
    void take(const std::string& name) {
        if (name == "BDC" || name == "BMC") open(name);
        if (name == "EMC" && !open_.empty()) open_.pop_back();
        if (name == "k" || name == "K") into_.cmyk = true;
        if (name == "Tf" && operands_.size() == 2) font_ = operands_[0].getName();
        if (draws(name) && std::ranges::find(open_, true) == open_.end()) ++into_.untagged;
        if ((name == "Tj" || name == "TJ") && !operands_.empty()) show(operands_.back());
    }
    /// Artifacts and numbered content count as tagged; the innermost of either decides nothing the outer has not.
    void open(const std::string& name) {
        bool tagged = !operands_.empty() && operands_[0].isNameAndEquals("/Artifact");
        if (name == "BDC" && operands_.size() == 2 && operands_[1].isDictionary() && operands_[1].getKey("/MCID").isInteger()) {
            const int number = operands_[1].getKey("/MCID").getIntValueAsInt();
            if (!into_.marks.insert(number).second) into_.doubled.insert(number);
            tagged = true;
        }
        open_.push_back(tagged);
    }
    void show(Handle shown) {
        into_.fonts.insert(font_);
        Handle font = resources_.getKey("/Font").isDictionary() ? resources_.getKey("/Font").getKey(font_) : Handle::newNull();
        const bool two_bytes = font.isDictionary() && font.getKey("/Subtype").isNameAndEquals("/Type0");
        for (Handle part : shown.isArray() ? shown.getArrayAsVector() : std::vector<Handle>{shown}) {
            if (!part.isString()) continue;
            const std::string codes = part.getStringValue();
            into_.texts += codes.empty() ? 0 : 1;
            for (std::size_t at = 0; two_bytes && at + 1 < codes.size(); at += 2)
                if (codes[at] == 0 && codes[at + 1] == 0) ++into_.missing_glyphs;
        }
    }

    Handle resources_;
    PageContent& into_;
    std::vector<Handle> operands_;
    std::vector<bool> open_;
    std::string font_;
};

}  // namespace

PageContent content_of(Handle page) {
    PageContent content;
    QPDFPageObjectHelper helper(page);
    Reader reader(helper.getAttribute("/Resources", /*copy_if_shared=*/false), content);
    helper.parseContents(&reader);
    return content;
}

}  // namespace wayfolio::conformance
