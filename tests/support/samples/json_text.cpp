#include "support/samples/json_text.hpp"

namespace wayfolio::samples {
namespace {

constexpr std::size_t line_width = 150;
/// Marks a string as the digits of a number; no text of a sample begins so.
const std::string digits_mark = "digits:";

std::string scalar(const Json& value) {
    if (value.is_string() && value.get_ref<const std::string&>().starts_with(digits_mark))
        return value.get_ref<const std::string&>().substr(digits_mark.size());
    return value.dump();
}

std::string on_one_line(const Json& value) {
    if (!value.is_structured()) return scalar(value);
    std::string text = value.is_array() ? "[" : "{";
    for (auto item = value.begin(); item != value.end(); ++item) {
        if (item != value.begin()) text += ", ";
        if (value.is_object()) text += Json(item.key()).dump() + ": ";
        text += on_one_line(*item);
    }
    return text + (value.is_array() ? "]" : "}");
}

bool is_list_of_scalars(const Json& value) {
    if (!value.is_array()) return false;
    for (const Json& item : value)
        if (item.is_structured() || (item.is_string() && !item.get_ref<const std::string&>().starts_with(digits_mark)))
            return false;
    return true;
}

std::string filled(const Json& list, std::size_t indent) {
    std::string text = "[";
    std::size_t column = indent + 1;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string item = scalar(list[i]) + (i + 1 < list.size() ? "," : "");
        if (i > 0 && column + 1 + item.size() > line_width) {
            text += "\n" + std::string(indent + 1, ' ');
            column = indent + 1;
        } else if (i > 0) {
            text += ' ';
            ++column;
        }
        text += item;
        column += item.size();
    }
    return text + "]";
}

std::string laid_out(const Json& value, std::size_t indent, std::size_t lead) {
    const std::string line = on_one_line(value);
    if (!value.is_structured() || (indent > 0 && indent + lead + line.size() < line_width)) return line;
    if (is_list_of_scalars(value)) return filled(value, indent);
    const std::string pad(indent + 1, ' ');
    std::string text = value.is_array() ? "[\n" : "{\n";
    for (auto item = value.begin(); item != value.end(); ++item) {
        if (item != value.begin()) text += ",\n";
        const std::string key = value.is_object() ? Json(item.key()).dump() + ": " : "";
        text += pad + key + laid_out(*item, indent + 1, key.size());
    }
    return text + "\n" + std::string(indent, ' ') + (value.is_array() ? "]" : "}");
}

}  // namespace

Json number_as_written(const std::string& digits) { return digits_mark + digits; }

std::string json_text(const Json& document) { return laid_out(document, 0, 0) + "\n"; }

}  // namespace wayfolio::samples
