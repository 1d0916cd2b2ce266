#pragma once
#include "input/json/json.hpp"

#include <span>

namespace wayfolio::input {

/// One pass over a JSON text. A hand-written parser, because a common one gives no place for each value and key, keeps no literal of
/// a number, and lets doubled keys pass.
class JsonParser {
public:
    JsonParser(std::string_view bytes, const std::string& file);
    Json parse();

private:
    Value value();
    void object(Value& into);
    void array(Value& into);
    void literal(Value& into);
    void number(Value& into);
    std::string_view string(std::string_view expected);
    std::string_view string_with_escapes(const char* begin);
    void escape(std::string& into);
    std::uint32_t four_hex_digits();

    static constexpr const char* quotes_hint = "these are typographic quotation marks; JSON wants the plain \"";

    void key(Value& member);
    void open(JsonKind kind);
    void close(Value& into);
    void report_doubled_keys(const Value& object);
    [[nodiscard]] bool separator(char closing, std::string_view expected);
    void skip_space() {
        if (at_ != end_ && *at_ <= ' ') skip_spaces();
    }
    void skip_spaces();
    [[nodiscard]] bool at_end() const { return at_ == end_; }
    [[nodiscard]] char letter() const { return at_ == end_ ? '\0' : *at_; }
    [[nodiscard]] std::size_t column(const char* at) const { return static_cast<std::size_t>(at - line_start_) + 1; }
    /// Pointer of what is being read in the outermost `levels` open containers.
    [[nodiscard]] std::string pointer(std::size_t levels) const;
    [[nodiscard]] std::string found_here() const;
    void note(const Value& at, std::string found, std::string expected, std::string hint);
    [[noreturn]] void stop(const char* at, std::string found, std::string expected, std::string hint = {});
    [[noreturn]] void unexpected(std::string_view expected, std::string hint = {});

    const std::string& file_;
    const char *at_, *end_, *line_start_;
    std::string_view last_text_;  ///< the key or text read last
    std::uint32_t line_ = 1;
    std::size_t values_ = 0;
    /// A container being read: its items so far are finished_[first...], the item being read has this place and key.
    struct Open {
        JsonKind kind;
        std::size_t first, place;
        std::string_view key;
    };
    std::vector<Open> open_;       ///< outermost first
    std::vector<Value> finished_;  ///< items of the open containers, until each has all of its own
    Json json_;
};

}  // namespace wayfolio::input
