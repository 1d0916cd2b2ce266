#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace wayfolio::report {

/// How a stretch of text is told apart, without saying how that looks.
enum class Emphasis { Plain, Symbol, Strong, Quiet };

struct Span {
    std::string text;
    Emphasis emphasis = Emphasis::Plain;
    bool operator==(const Span&) const = default;
};

/// Final words of the report, with emphasis. Words of the document's author go in through plain(), untouched.
class Text {
public:
    Text() = default;
    Text(std::string plain_text) { plain(std::move(plain_text)); }
    Text(const char* plain_text) : Text(std::string(plain_text)) {}

    Text& plain(std::string_view text) { return add(text, Emphasis::Plain); }
    /// A quantity symbol, set italic: A, E, U, k.
    Text& symbol(std::string_view text) { return add(text, Emphasis::Symbol); }
    Text& strong(std::string_view text) { return add(text, Emphasis::Strong); }
    Text& quiet(std::string_view text) { return add(text, Emphasis::Quiet); }
    Text& append(const Text& other);

    [[nodiscard]] const std::vector<Span>& spans() const { return spans_; }
    [[nodiscard]] bool empty() const { return spans_.empty(); }
    /// The words alone, for alternative texts and tests.
    [[nodiscard]] std::string words() const;
    bool operator==(const Text&) const = default;

private:
    Text& add(std::string_view text, Emphasis emphasis);
    std::vector<Span> spans_;
};

/// Text from our own wording, where *x* marks a symbol and **x** strong words. Never for words of the document.
Text marked(std::string_view wording);

/// The same with strong emphasis throughout (symbols stay symbols).
Text emphasised(const Text& text);

}  // namespace wayfolio::report
