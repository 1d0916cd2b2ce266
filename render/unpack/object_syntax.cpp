#include "unpack/object_syntax.hpp"

#include <algorithm>
#include <string>

namespace wayfolio::unpack {

namespace {

constexpr std::string_view white("\0\t\n\v\f\r ", 7), delimiters("()<>[]{}/%");

[[noreturn]] void not_written_so() { throw TooMuch("an object stream whose objects cannot be told from each other"); }

/// Walks over the text once. Whatever libqpdf could read in another way than this ends the walk.
class Walk {
public:
    explicit Walk(std::string_view text) : text_(text) {}
    [[nodiscard]] bool is_done() const { return at_ >= text_.size(); }
    [[nodiscard]] std::size_t place() const { return at_; }
    [[nodiscard]] bool is_inside() const { return !open_.empty(); }
    [[nodiscard]] std::size_t objects() const { return objects_; }
    void skip_white() {
        while (!is_done() && is_white(text_[at_])) ++at_;
    }
    void step() {
        const char first = text_[at_];
        if (ends_word(first)) numbers_ = 0;
        const bool doubled = at_ + 1 < text_.size() && text_[at_ + 1] == first;
        if (first == '[' || (first == '<' && doubled)) open(first);
        else if (first == ']' || (first == '>' && doubled)) close(first == ']' ? '[' : '<');
        else if (first == '(') skip_string();
        else if (first == '<') skip_hexadecimal();
        else if (std::string_view(")>{}%").find(first) != std::string_view::npos) not_written_so();  // inside a comment may be anything
        else skip_word();
    }

private:
    void open(char bracket) {
        open_.push_back(bracket);
        at_ += bracket == '<' ? 2 : 1;
        ++objects_;
    }
    void close(char bracket) {
        if (open_.empty() || open_.back() != bracket) not_written_so();
        open_.pop_back();
        at_ += bracket == '<' ? 2 : 1;
    }
    void skip_string() {
        int depth = 0;
        for (; !is_done(); ++at_) {
            if (text_[at_] == '\\') ++at_;
            else if (text_[at_] == '(') ++depth;
            else if (text_[at_] == ')' && --depth == 0) break;
        }
        if (is_done()) not_written_so();
        ++at_;
        ++objects_;
    }
    void skip_hexadecimal() {
        constexpr std::string_view digits("0123456789abcdefABCDEF");
        for (++at_; !is_done() && (digits.find(text_[at_]) != std::string_view::npos || is_white(text_[at_])); ++at_) {}
        if (is_done() || text_[at_] != '>') not_written_so();
        ++at_;
        ++objects_;
    }
    void skip_word() {
        const std::size_t from = at_++;
        while (!is_done() && !ends_word(text_[at_])) ++at_;
        const std::string_view word = text_.substr(from, at_ - from);
        // A reference is two numbers and a letter.
        const bool refers = word == "R" && numbers_ >= 2;
        objects_ = refers ? objects_ - 1 : objects_ + 1;
        numbers_ = word.find_first_not_of("0123456789") == std::string_view::npos ? numbers_ + 1 : 0;
    }

    std::string_view text_;
    std::size_t at_ = 0, objects_ = 0;
    int numbers_ = 0;  ///< how many stand in a row
    std::vector<char> open_;
};

}  // namespace

bool is_white(char byte) { return white.find(byte) != std::string_view::npos; }

bool ends_word(char byte) { return is_white(byte) || delimiters.find(byte) != std::string_view::npos; }

std::size_t objects_in(std::string_view text, std::vector<std::size_t> starts) {
    std::sort(starts.begin(), starts.end());
    if (std::adjacent_find(starts.begin(), starts.end()) != starts.end()) not_written_so();
    auto next = starts.begin();
    Walk walk(text);
    while (!walk.is_done()) {
        walk.skip_white();
        // White space before an object may be named as its place.
        for (; next != starts.end() && *next <= walk.place(); ++next)
            if (walk.is_inside()) not_written_so();
        if (walk.is_done()) break;
        walk.step();
        if (next != starts.end() && *next < walk.place()) not_written_so();
    }
    return walk.objects();
}

void require_readable_content(std::string_view content) {
    constexpr std::size_t most_words = 1'000'000;
    std::size_t words = 0;
    bool between = true;
    // Every byte that could begin one, for an array of a million numbers may stand behind a picture whose bytes look like a string.
    for (const char byte : content) {
        const bool ends = ends_word(byte);
        if (ends ? !is_white(byte) : between) ++words;
        between = ends;
    }
    if (words > most_words) throw TooMuch("the content of a page holds more operators and operands than can be read");
}

}  // namespace wayfolio::unpack
