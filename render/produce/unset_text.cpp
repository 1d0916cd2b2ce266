#include "produce/unset_text.hpp"

#include "input/json/json.hpp"
#include "input/json/object_reader.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::produce {
namespace {

using input::JsonKind;
using input::Value;

/// Letters alone decide what can be set, not their size.
constexpr text::TextStyle any_style{.size = units::point(9), .leading = units::point(12), .letter_spacing = {}};

class Walk {
public:
    Walk(const std::string& bytes, std::string file, const text::Shaper& shaper)
        : file_(std::move(file)), shaper_(shaper), json_(input::read_json(bytes, file_)) {}

    std::vector<input::Problem> faults() {
        visit(json_.root);
        return std::move(faults_);
    }

private:
    void visit(const Value& value) {
        if (input::is_passed_over(value.key) || value.key == "$schema") return;
        if (value.is(JsonKind::String) && !is_ascii(value.text)) try_to_set(value);
        for (const Value& item : value.items) visit(item);
    }

    static bool is_ascii(std::string_view text) {
        return std::ranges::all_of(text, [](unsigned char c) { return c < 0x80; });
    }

    /// As a whole: an accent of its own may have no glyph and yet be composed with its letter.
    void try_to_set(const Value& value) {
        try {
            shaper_.width(value.text, any_style);
        } catch (const text::GlyphMissing& missing) {
            faults_.push_back({file_,
                               {value.line, value.column, input::pointer_of(json_.root, value)},
                               missing.found(),
                               missing.expected(),
                               ""});
        }
    }

    std::string file_;
    const text::Shaper& shaper_;
    input::Json json_;
    std::vector<input::Problem> faults_;
};

}  // namespace

std::vector<input::Problem> unset_texts(const document::Document& document, const text::Shaper& shaper) {
    return Walk(document.bytes, document.file, shaper).faults();
}

std::vector<input::Problem> unset_texts(const layouts::Layout& layout, const text::Shaper& shaper) {
    std::vector<input::Problem> faults;
    const auto add = [&](const std::string& bytes, const std::string& file) {
        for (input::Problem& fault : Walk(bytes, file, shaper).faults()) faults.push_back(std::move(fault));
    };
    add(layout.bytes, layout.files.empty() ? layout.name : layout.files.back().string());
    for (const std::string& bytes : layout.extended) add(bytes, "a layout that it extends");
    return faults;
}

}  // namespace wayfolio::produce
