#include "input/json/json_parser.hpp"

#include "input/encoding.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <utility>

namespace wayfolio::input {

JsonParser::JsonParser(std::string_view bytes, const std::string& file)
    : file_(file), at_(bytes.data()), end_(bytes.data() + bytes.size()), line_start_(at_) {}

Json JsonParser::parse() {
    skip_space();
    json_.root = value();
    skip_space();
    if (!at_end()) unexpected("nothing after the end of the document");
    return std::move(json_);
}

void JsonParser::skip_spaces() {
    for (; at_ != end_; ++at_) {
        if (*at_ == '\n') {
            ++line_;
            line_start_ = at_ + 1;
        } else if (*at_ != ' ' && *at_ != '\t' && *at_ != '\r') {
            return;
        }
    }
}

Value JsonParser::value() {
    Value into;
    into.line = line_;
    into.column = static_cast<std::uint32_t>(column(at_));
    if (++values_ > JsonLimits::values)
        stop(at_, fmt::format("more than {} values", JsonLimits::values), "a smaller document",
             "put a long trace into a separate file beside the document");
    switch (letter()) {
        case '{': object(into); break;
        case '[': array(into); break;
        case '"':
            into.kind = JsonKind::String;
            into.text = string("a value");
            if (const auto code = first_unprintable(into.text))
                note(into, fmt::format("a text with the character U+{:04X}", *code),
                     "a text without control characters and marks of writing direction", "the character is invisible; type the text again");
            break;
        case 't': case 'f': case 'n': literal(into); break;
        default: number(into); break;
    }
    return into;
}

void JsonParser::open(JsonKind kind) {
    if (open_.size() == JsonLimits::depth)
        stop(at_, fmt::format("more than {} levels of nesting", JsonLimits::depth), "a flatter document");
    open_.push_back({kind, finished_.size(), 0, {}});
    ++at_;
    skip_space();
}

/// Moves the items of the innermost container to where they stay.
void JsonParser::close(Value& into) {
    const auto items = std::span(finished_).subspan(open_.back().first);
    into.kind = open_.back().kind;
    if (!items.empty()) {
        auto* const home = static_cast<Value*>(json_.values->allocate(items.size_bytes(), alignof(Value)));
        std::uninitialized_copy(items.begin(), items.end(), home);
        into.items = {home, items.size()};
    }
    finished_.resize(open_.back().first);
    if (into.kind == JsonKind::Object) report_doubled_keys(into);
    open_.pop_back();
}

void JsonParser::object(Value& into) {
    open(JsonKind::Object);
    bool more = letter() != '}';
    if (!more) ++at_;
    while (more) {
        if (open_.back().place == JsonLimits::members)
            stop(at_, fmt::format("more than {} keys in one object", JsonLimits::members), "fewer keys");
        Value head;
        key(head);
        Value member = value();
        member.key = head.key;
        member.key_line = head.key_line;
        member.key_column = head.key_column;
        finished_.push_back(member);
        more = separator('}', "\",\" or \"}\" after a value");
        ++open_.back().place;
    }
    close(into);
}

void JsonParser::key(Value& member) {
    open_.back().key = {};  // until it is read: a fault of its own is not one of the key before
    member.key_line = line_;
    member.key_column = static_cast<std::uint32_t>(column(at_));
    if (letter() != '"') unexpected("a key in double quotes", letter() == '}' ? "remove the comma before it" : "");
    member.key = string("a key");
    open_.back().key = member.key;
    skip_space();
    if (letter() != ':') unexpected("\":\" after a key");
    ++at_;
    skip_space();
}

void JsonParser::array(Value& into) {
    open(JsonKind::Array);
    bool more = letter() != ']';
    if (!more) ++at_;
    while (more) {
        if (letter() == ']') unexpected("a value", "remove the comma before it");
        finished_.push_back(value());
        more = separator(']', "\",\" or \"]\" after a value");
        ++open_.back().place;
    }
    close(into);
}

/// Reads what stands after an item; true when a further item follows.
bool JsonParser::separator(char closing, std::string_view expected) {
    skip_space();
    const char found = letter();
    if (at_end() || (found != ',' && found != closing)) unexpected(expected);
    ++at_;
    if (found == closing) return false;
    skip_space();
    return true;
}

void JsonParser::literal(Value& into) {
    const std::string_view rest(at_, static_cast<std::size_t>(end_ - at_));
    const auto is = [&](std::string_view word) { return rest.starts_with(word); };
    if (is("true") || is("false")) {
        into.kind = JsonKind::Boolean;
        into.boolean = is("true");
        at_ += into.boolean ? 4 : 5;
    } else if (is("null")) {
        at_ += 4;
    } else {
        unexpected("a value", is("nan") ? "a missing reading is null" : "");
    }
}

void JsonParser::report_doubled_keys(const Value& object) {
    std::vector<const Value*> sorted;
    sorted.reserve(object.items.size());
    for (const Value& member : object.items) sorted.push_back(&member);
    // Stable: of two equal keys the later one of the file stands second, and is the one reported.
    std::ranges::stable_sort(sorted, {}, [](const Value* member) { return member->key; });
    for (std::size_t place = 1; place < sorted.size(); ++place) {
        const Value &first = *sorted[place - 1], &second = *sorted[place];
        if (first.key != second.key) continue;
        const Place where{second.key_line, second.key_column, pointer_step(pointer(open_.size() - 1), second.key)};
        json_.problems.push_back({file_, where, "the key " + quoted(second.key) + " a second time", "each key once",
                                  fmt::format("it is already at line {}", first.key_line)});
    }
}

std::string JsonParser::pointer(std::size_t levels) const {
    std::string result;
    for (const Open& container : std::span(open_).first(levels)) {
        const bool named = container.kind == JsonKind::Object;
        if (named && container.key.data() == nullptr) break;
        result = pointer_step(std::move(result), named ? std::string(container.key) : std::to_string(container.place));
    }
    return result;
}

void JsonParser::note(const Value& at, std::string found, std::string expected, std::string hint) {
    json_.problems.push_back({file_, {at.line, at.column, pointer(open_.size())}, std::move(found), std::move(expected), std::move(hint)});
}

void JsonParser::stop(const char* at, std::string found, std::string expected, std::string hint) {
    json_.problems.push_back({file_, {line_, column(at), pointer(open_.size())}, std::move(found), std::move(expected), std::move(hint)});
    throw InputRejected(std::move(json_.problems));
}

void JsonParser::unexpected(std::string_view expected, std::string hint) {
    if (hint.empty() && letter() == '/') hint = "JSON has no comments";
    if (hint.empty() && letter() == '\'') hint = "use double quotes";
    // One that was to open a text, or one that was to close the text before.
    if (hint.empty() && (has_typographic_quote({at_, static_cast<std::size_t>(std::min<std::ptrdiff_t>(3, end_ - at_))}) ||
                         has_typographic_quote(last_text_)))
        hint = quotes_hint;
    stop(at_, found_here(), std::string(expected), std::move(hint));
}

std::string JsonParser::found_here() const {
    if (at_end()) return "the end of the file";
    const auto byte = static_cast<unsigned char>(*at_);
    if (byte == 0) return "a NUL byte";
    if (byte < 0x20 || byte == 0x7f) return fmt::format("the control character U+{:04X}", byte);
    const char* stop_at = at_ + 1;
    const auto belongs = [](char next) {
        const auto code = static_cast<unsigned char>(next);
        return code >= 0x80 || (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') || (code >= '0' && code <= '9');
    };
    while (stop_at != end_ && belongs(*at_) && belongs(*stop_at)) ++stop_at;
    while (stop_at != end_ && (static_cast<unsigned char>(*stop_at) & 0xC0U) == 0x80U) ++stop_at;
    return quoted({at_, static_cast<std::size_t>(stop_at - at_)});
}

}  // namespace wayfolio::input
