#include "evaluate/written/json_lines.hpp"

#include "units/number_text.hpp"

#include <algorithm>
#include <string>

namespace wayfolio::evaluate {
namespace {

/// Nothing that JSON writes otherwise than it is.
bool is_plain(std::string_view text) {
    return std::ranges::all_of(text, [](unsigned char c) { return c >= ' ' && c < 0x7f && c != '"' && c != '\\'; });
}

void quote(std::string& out, std::string_view text) {
    // Nearly all texts: the library takes a thousand instructions to begin one.
    if (is_plain(text))
        out.append(1, '"').append(text).append(1, '"');
    else
        out += quoted(text);
}

}  // namespace

void JsonLines::new_line() { out_.append(1, '\n').append(2 * depth_, ' '); }

void JsonLines::begin_value() {
    if (in_line_) {
        in_line_ = false;
        return;
    }
    if (!first_) out_ += ',';
    new_line();
    first_ = false;
}

void JsonLines::open(char bracket) {
    begin_value();
    out_ += bracket;
    ++depth_;
    first_ = true;
}

void JsonLines::close(char bracket) {
    --depth_;
    if (!first_) new_line();
    out_ += bracket;
    first_ = false;
}

void JsonLines::open_object() { open('{'); }
void JsonLines::close_object() { close('}'); }
void JsonLines::open_array() { open('['); }
void JsonLines::close_array() { close(']'); }

void JsonLines::key(std::string_view name) {
    begin_value();
    quote(out_, name);
    out_ += ": ";
    in_line_ = true;
}

void JsonLines::none() {
    begin_value();
    out_ += "null";
}

void JsonLines::truth(bool value) {
    begin_value();
    out_ += value ? "true" : "false";
}

void JsonLines::count(std::uint64_t value) {
    begin_value();
    out_ += std::to_string(value);
}

void JsonLines::number(double value) {
    begin_value();
    units::append_shortest(out_, value);
}

void JsonLines::text(std::string_view value) {
    begin_value();
    quote(out_, value);
}

void JsonLines::json(const Json& value) {
    if (value.is_object()) {
        open_object();
        for (const auto& [name, member] : value.get_ref<const Json::object_t&>()) add(name, member);
        close_object();
    } else if (value.is_array()) {
        open_array();
        for (const Json& element : value.get_ref<const Json::array_t&>()) json(element);
        close_array();
    } else if (value.is_number_float()) {
        number(value.get<double>());
    } else if (value.is_string()) {
        text(value.get_ref<const std::string&>());
    } else {
        begin_value();
        out_ += spelled(value);
    }
}

void JsonLines::written(std::string_view part) {
    begin_value();
    out_ += part;
}

}  // namespace wayfolio::evaluate
