#include "conformance/read/xml.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace wayfolio::conformance {

namespace {

constexpr std::string_view name_ends = " \t\r\n=/><\"'&?";
constexpr int most_levels = 200;

struct Prefix {
    std::string name, space;
};

/// Reads by XML 1.0 (fifth edition) and Namespaces in XML 1.0. Names are taken for names whatever their letters.
class XmlReader {
public:
    explicit XmlReader(const std::string& text) : text_(text) {}
    XmlElement root() {
        if (rest().starts_with("\xEF\xBB\xBF")) at_ += 3;
        outside();
        if (!rest().starts_with("<") || rest().size() < 2) fail("no element");
        XmlElement made = element(0);
        outside();
        if (at_ != text_.size()) fail("something after the root element");
        return made;
    }

private:
    [[nodiscard]] std::string_view rest() const { return std::string_view(text_).substr(at_); }
    [[noreturn]] void fail(const std::string& what) const { throw std::runtime_error("byte " + std::to_string(at_) + ": " + what); }
    void expect(std::string_view word) {
        if (!rest().starts_with(word)) fail("expected " + std::string(word));
        at_ += word.size();
    }
    void space() { at_ = std::min(text_.find_first_not_of(" \t\r\n", at_), text_.size()); }
    /// Passes over what stands up to and with `close`; fails where that is not there.
    std::string_view up_to(std::string_view close) {
        const std::size_t end = text_.find(close, at_);
        if (end == std::string::npos) fail("no " + std::string(close));
        const std::string_view passed = std::string_view(text_).substr(at_, end - at_);
        at_ = end + close.size();
        return passed;
    }
    bool comment_or_instruction() {
        if (rest().starts_with("<?")) up_to("?>");
        else if (!rest().starts_with("<!--")) return false;
        else if (at_ += 4; up_to("-->").find("--") != std::string_view::npos) fail("-- inside a comment");
        return true;
    }
    void outside() {
        do space();
        while (comment_or_instruction());
    }
    std::string name() {
        const std::size_t from = at_;
        at_ = std::min(text_.find_first_of(name_ends, at_), text_.size());
        if (at_ == from || std::string_view("-.0123456789").find(text_[from]) != std::string_view::npos) fail("no name");
        return text_.substr(from, at_ - from);
    }
    /// `text` with its references resolved (XML 1.0, 4.1 and 4.6).
    std::string resolved(std::string_view text) const {
        constexpr std::array<std::pair<std::string_view, char>, 5> entities{
            {{"lt", '<'}, {"gt", '>'}, {"quot", '"'}, {"apos", '\''}, {"amp", '&'}}};
        std::string made;
        for (std::size_t at = text.find('&'); at != std::string_view::npos; at = text.find('&')) {
            const std::size_t end = text.find(';', at);
            const std::string_view word = end == std::string_view::npos ? "" : text.substr(at + 1, end - at - 1);
            made += text.substr(0, at);
            const auto known = std::ranges::find(entities, word, &std::pair<std::string_view, char>::first);
            if (known != entities.end()) made += known->second;
            else if (word.starts_with('#')) made += character(word.substr(1));
            else fail("an & that begins no reference");
            text.remove_prefix(end + 1);
        }
        return made.append(text);
    }
    std::string character(std::string_view digits) const {
        const bool hexadecimal = digits.starts_with('x');
        if (hexadecimal) digits.remove_prefix(1);
        unsigned code = 0;
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), code, hexadecimal ? 16 : 10);
        if (error != std::errc() || end != digits.data() + digits.size() || code == 0 || code > 0x10FFFF) fail("no character");
        if (code < 0x80) return {static_cast<char>(code)};
        std::string made;
        const int more = code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
        made += static_cast<char>((0xF00U >> more & 0xFFU) | code >> (6 * more));
        for (int i = more - 1; i >= 0; --i) made += static_cast<char>(0x80U | (code >> (6 * i) & 0x3FU));
        return made;
    }
    XmlElement element(int level) {
        if (level > most_levels) fail("too many elements in each other");
        expect("<");
        const std::string called = name();
        const std::size_t outer = prefixes_.size();
        XmlElement made;
        attributes(made);
        std::tie(made.prefix, made.name) = expanded(called, /*attribute=*/false);
        if (rest().starts_with("/>")) at_ += 2;
        else content(made, called, level);
        prefixes_.resize(outer);
        return made;
    }
    void attributes(XmlElement& made) {
        std::vector<std::pair<std::string, std::string>> written;
        for (space(); !rest().starts_with(">") && !rest().starts_with("/>"); space()) {
            std::string called = name();
            space();
            expect("=");
            space();
            const std::string quote(rest().substr(0, 1));
            if (quote != "\"" && quote != "'") fail("an attribute without quotes");
            ++at_;
            const std::string_view value = up_to(quote);
            if (value.find('<') != std::string_view::npos) fail("< inside an attribute");
            if (called == "xmlns") prefixes_.push_back({"", resolved(value)});
            else if (called.starts_with("xmlns:")) prefixes_.push_back({called.substr(6), resolved(value)});
            else written.emplace_back(std::move(called), resolved(value));
        }
        for (auto& [called, value] : written) {
            const auto [prefix, expanded_name] = expanded(called, /*attribute=*/true);
            if (std::ranges::find(made.attributes, expanded_name, &XmlAttribute::name) != made.attributes.end()) fail("an attribute twice");
            made.attributes.push_back({expanded_name, prefix, std::move(value)});
        }
        if (rest().starts_with(">")) ++at_;
    }
    void content(XmlElement& made, const std::string& called, int level) {
        while (!rest().starts_with("</")) {
            if (at_ >= text_.size()) fail("no </" + called + ">");
            if (comment_or_instruction()) continue;
            if (rest().starts_with("<![CDATA[")) {
                at_ += 9;
                made.text += up_to("]]>");
            } else if (rest().starts_with("<")) {
                made.kids.push_back(element(level + 1));
            } else {
                const std::size_t end = std::min(text_.find('<', at_), text_.size());
                made.text += resolved(std::string_view(text_).substr(at_, end - at_));
                at_ = end;
            }
        }
        at_ += 2;
        if (name() != called) fail("another end than </" + called + ">");
        space();
        expect(">");
    }
    [[nodiscard]] std::pair<std::string, XmlName> expanded(const std::string& called, bool attribute) const {
        const std::size_t colon = called.find(':');
        const std::string prefix = colon == std::string::npos ? "" : called.substr(0, colon);
        const std::string local = colon == std::string::npos ? called : called.substr(colon + 1);
        if (prefix == "xml") return {prefix, {"http://www.w3.org/XML/1998/namespace", local}};
        if (prefix.empty() && attribute) return {prefix, {"", local}};
        const auto known = std::ranges::find(prefixes_.rbegin(), prefixes_.rend(), prefix, &Prefix::name);
        if (known == prefixes_.rend() && !prefix.empty()) fail("the prefix " + prefix + " stands for nothing");
        return {prefix, {known == prefixes_.rend() ? "" : known->space, local}};
    }

    const std::string& text_;
    std::size_t at_ = 0;
    std::vector<Prefix> prefixes_;
};

}  // namespace

const XmlElement* XmlElement::kid(const XmlName& called) const {
    const auto found = std::ranges::find(kids, called, &XmlElement::name);
    return found == kids.end() ? nullptr : &*found;
}

XmlElement xml_root(const std::string& text) {
    const auto forbidden = [](char c) { return static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r'; };
    if (const auto found = std::ranges::find_if(text, forbidden); found != text.end())
        throw std::runtime_error("byte " + std::to_string(found - text.begin()) + ": a control character");
    return XmlReader(text).root();
}

}  // namespace wayfolio::conformance
