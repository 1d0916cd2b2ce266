#include "report/model/text.hpp"

namespace wayfolio::report {

Text& Text::add(std::string_view text, Emphasis emphasis) {
    if (text.empty()) return *this;
    if (!spans_.empty() && spans_.back().emphasis == emphasis) spans_.back().text += text;
    else spans_.push_back({std::string(text), emphasis});
    return *this;
}

Text& Text::append(const Text& other) {
    for (const Span& span : other.spans_) add(span.text, span.emphasis);
    return *this;
}

std::string Text::words() const {
    std::string all;
    for (const Span& span : spans_) all += span.text;
    return all;
}

Text marked(std::string_view wording) {
    Text text;
    while (!wording.empty()) {
        const auto star = wording.find('*');
        text.plain(wording.substr(0, star));
        if (star == std::string_view::npos) break;
        const bool strong = wording.substr(star, 2) == "**";
        const std::string_view fence = strong ? "**" : "*";
        const auto start = star + fence.size();
        const auto end = wording.find(fence, start);
        const auto inside = wording.substr(start, end - start);
        if (strong) text.strong(inside);
        else text.symbol(inside);
        wording = end == std::string_view::npos ? std::string_view{} : wording.substr(end + fence.size());
    }
    return text;
}

Text emphasised(const Text& text) {
    Text strong;
    for (const Span& span : text.spans()) {
        if (span.emphasis == Emphasis::Symbol) strong.symbol(span.text);
        else strong.strong(span.text);
    }
    return strong;
}

}  // namespace wayfolio::report
