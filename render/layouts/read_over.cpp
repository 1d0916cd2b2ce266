#include "layouts/layout_draft.hpp"

#include "input/json/nearest.hpp"
#include "layouts/ranges.hpp"
#include "layouts/read_house.hpp"
#include "units/deviation.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>
#include <span>

namespace wayfolio::layouts {
namespace {

using input::JsonKind;
using input::ObjectReader;
using input::Value;
using input::Word;

constexpr std::array<Word<std::string_view>, 4> linear_positions{{{"document", "document"}, {"mm", "mm"}, {"m", "m"}, {"in", "in"}}};
constexpr std::array<Word<std::string_view>, 1> rotary_positions{{{"deg", "deg"}}};
constexpr std::array<Word<char>, 2> decimal_marks{{{".", '.'}, {",", ','}}};

template <class Role>
constexpr auto words_of() {
    std::array<std::string_view, role_words<Role>.size()> words{};
    std::ranges::transform(role_words<Role>, words.begin(), &RoleWord<Role>::word);
    return words;
}

/// The members of an object whose keys are roles; unknown ones are reported with the nearest.
template <class Role, class Read>
void each_role(ObjectReader& reader, std::string_view key, Read read) {
    const Value* const member = reader.find(key);
    if (member == nullptr) return;
    ObjectReader part(*member, reader.faults(), "values by role");
    for (const auto& known : role_words<Role>)
        if (const Value* const value = part.find(known.word)) read(known.role, *value);
    part.finish();
}

/// "#RRGGBB" as a colour, or nothing.
std::optional<Colour> colour_of(std::string_view text) {
    if (text.size() != 7 || text[0] != '#') return std::nullopt;
    unsigned rgb = 0;
    const char* const end = text.data() + text.size();
    const auto [read_to, failure] = std::from_chars(text.data() + 1, end, rgb, 16);
    if (failure != std::errc() || read_to != end) return std::nullopt;
    return Colour{static_cast<unsigned char>(rgb >> 16U), static_cast<unsigned char>(rgb >> 8U), static_cast<unsigned char>(rgb)};
}

/// The number in points, where it lies in its range.
std::optional<Paper> points_of(ObjectReader& reader, const Value& value, const Range& range) {
    const std::string expected = fmt::format("a number of points from {} to {}", range.least, range.most);
    if (!reader.expect(value, JsonKind::Number, expected)) return std::nullopt;
    if (range.holds(value.number)) return units::point(value.number);
    reader.faults().add_wrong(value, expected);
    return std::nullopt;
}

void say(Paper& into, ObjectReader& reader, std::string_view key, const Range& range, bool inherited) {
    const Value* const value = inherited ? reader.find(key) : reader.require(key, "a number of points");
    if (value == nullptr) return;
    if (const auto length = points_of(reader, *value, range)) into = *length;
}

void read_papers(ObjectReader& reader, Layout& layout) {
    const Value* const papers = reader.find("papers");
    if (papers == nullptr || !reader.expect(*papers, JsonKind::Object, "papers by name")) return;
    for (const Value& value : papers->items) {
        if (input::is_passed_over(value.key)) continue;
        auto known = std::ranges::find(layout.papers, value.key, &PaperGrid::name);
        const bool inherited = known != layout.papers.end();
        if (!inherited) known = layout.papers.insert(known, PaperGrid{std::string(value.key), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}});
        ObjectReader part(value, reader.faults(), "a paper");
        const std::array<std::pair<std::string_view, Paper*>, 11> sizes{{
            {"width", &known->width}, {"height", &known->height}, {"left", &known->left}, {"wide_right", &known->wide_right},
            {"margin_left", &known->margin_left}, {"margin_right", &known->margin_right}, {"first_baseline", &known->first_baseline},
            {"baseline_step", &known->baseline_step}, {"last_baseline", &known->last_baseline},
            {"head_baseline", &known->head_baseline}, {"foot_baseline", &known->foot_baseline}}};
        const auto range = [](std::string_view key) {
            return key == "baseline_step" ? baseline_step : key == "width" || key == "height" ? paper_side : along_paper;
        };
        for (const auto& [key, size] : sizes) say(*size, part, key, range(key), inherited);
        part.finish();
        const bool holds = units::point(0) < known->width && known->left < known->wide_right && known->wide_right < known->margin_right &&
                           known->margin_left < known->margin_right && known->margin_right <= known->width;
        const bool upright = units::point(0) < known->baseline_step && known->first_baseline < known->last_baseline &&
                             known->last_baseline < known->height && known->foot_baseline < known->height;
        if (part.is_object() && (!holds || !upright))
            reader.faults().add(
                value, "a grid that does not lie on its paper",
                "left < wide_right, margin_left < margin_right <= width; first_baseline < last_baseline, foot_baseline < height");
    }
}

void read_type(ObjectReader& reader, LayoutDraft& draft) {
    each_role<TypeRole>(reader, "type", [&](TypeRole role, const Value& value) {
        const bool inherited = draft.types[role].has_value();
        TypeSize& type = inherited ? *draft.types[role] : draft.types[role].emplace();
        ObjectReader part(value, reader.faults(), "size, leading and letter_spacing");
        const TypeRange& range = range_of(role);
        say(type.size, part, "size", range.size, inherited);
        say(type.leading, part, "leading", range.leading, inherited);
        say(type.letter_spacing, part, "letter_spacing", range.letter_spacing, /*inherited=*/true);
        part.finish();
    });
}

void read_colours(ObjectReader& reader, LayoutDraft& draft) {
    each_role<ColourRole>(reader, "colours", [&](ColourRole role, const Value& value) {
        const auto colour = value.is(JsonKind::String) ? colour_of(value.text) : std::nullopt;
        if (colour) draft.colours[role] = *colour;
        else reader.faults().add_wrong(value, "a colour \"#RRGGBB\"");
    });
}

/// The colour of a pen: one of its own, or that of a role.
void read_pen_colour(PenDraft& pen, ObjectReader& reader, const Value& value) {
    static constexpr auto roles = words_of<ColourRole>();
    if (!reader.expect(value, JsonKind::String, "a colour role, or \"#RRGGBB\"")) return;
    const auto found = std::ranges::find(role_words<ColourRole>, value.text, &RoleWord<ColourRole>::word);
    if (const auto own = colour_of(value.text)) pen.colour = *own;
    else if (found != role_words<ColourRole>.end()) pen.colour = found->role;
    else reader.faults().add_wrong(value, "\"#RRGGBB\", or a colour role: " + input::listed(roles), input::nearest_hint(value.text, roles));
}

void read_pen(PenDraft& pen, ObjectReader& reader, bool inherited) {
    say(pen.width, reader, "width", pen_width, inherited);
    const Value* const colour = inherited ? reader.find("colour") : reader.require("colour", "a colour role, or \"#RRGGBB\"");
    if (colour != nullptr) read_pen_colour(pen, reader, *colour);
    if (reader.value().member("dash") != nullptr) pen.dash.clear();
    for (const Value& length : reader.array("dash", "an array of lengths in points", 16))
        if (const auto drawn = points_of(reader, length, dash_length)) pen.dash.push_back(*drawn);
    Paper all{};
    for (const Paper length : pen.dash) all += length;
    const Value* const written = reader.value().member("dash");
    if (written != nullptr && !pen.dash.empty() && all < units::point(least_dash))
        reader.faults().add_wrong(*written, fmt::format("dashes and gaps of at least {} pt in all", least_dash));
}

void read_pens(ObjectReader& reader, LayoutDraft& draft) {
    each_role<PenRole>(reader, "pens", [&](PenRole role, const Value& value) {
        const bool inherited = draft.pens[role].has_value();
        PenDraft& pen = inherited ? *draft.pens[role] : draft.pens[role].emplace();
        ObjectReader part(value, reader.faults(), "a pen: width, colour, dash");
        read_pen(pen, part, inherited);
        part.finish();
    });
}

void read_sizes(ObjectReader& reader, LayoutDraft& draft) {
    each_role<SizeRole>(reader, "sizes", [&](SizeRole role, const Value& value) {
        if (const auto size = points_of(reader, value, range_of(role))) draft.sizes[role] = *size;
    });
}

void read_shown(ObjectReader& reader, std::string_view key, units::Dimension dimension, UnitChoice& choice) {
    const Value* const value = reader.find(key);
    if (value == nullptr) return;
    ObjectReader part(*value, reader.faults(), "unit");
    std::vector<std::string_view> spellings{"document"};
    for (const auto& unit : units::deviation_units)
        if (unit.dimension == dimension) spellings.push_back(unit.spelling);
    if (const Value* const unit = part.find("unit"))
        if (const auto place = part.place_of_word(*unit, "a unit", spellings)) choice.unit = spellings[*place];
    part.finish();
}

void read_all_shown(ObjectReader& reader, Layout& layout) {
    const Value* const shown = reader.find("shown");
    if (shown == nullptr) return;
    ObjectReader part(*shown, reader.faults(), "what is shown in which unit");
    read_shown(part, "length", units::Dimension::Length, layout.length);
    read_shown(part, "angle", units::Dimension::Angle, layout.angle);
    read_shown(part, "rotary", units::Dimension::Angle, layout.rotary);
    if (const auto unit = part.choice("linear_position", "a unit of linear positions", linear_positions)) layout.linear_position = *unit;
    if (const auto unit = part.choice("rotary_position", "a unit of rotary positions", rotary_positions)) layout.rotary_position = *unit;
    part.finish();
}

void read_blocks(ObjectReader& reader, Layout& layout) {
    const Value* const member = reader.find("blocks");
    if (member == nullptr || !reader.expect(*member, JsonKind::Array, "an array of blocks")) return;
    layout.blocks.clear();
    if (member->items.empty()) reader.faults().add_wrong(*member, "at least one block");
    for (const Value& item : member->items) {
        const auto place = reader.place_of_word(item, "a block", block_names);
        if (!place) continue;
        if (std::ranges::find(layout.blocks, block_names[*place]) != layout.blocks.end())
            reader.faults().add_wrong(item, "each block once");
        layout.blocks.emplace_back(block_names[*place]);
    }
    const auto names = [&](std::string_view name) { return std::ranges::find(layout.blocks, name) != layout.blocks.end(); };
    if (names("remarks") && names("closing"))
        reader.faults().add(*member, "\"remarks\" beside \"closing\"", "one of the two: \"closing\" holds the remarks, too");
}

}  // namespace

void read_over(LayoutDraft& draft, ObjectReader& reader) {
    Layout& layout = draft.layout;
    layout.name = reader.required_text("name", "the name of the layout");
    if (std::string title = reader.text("title"); !title.empty()) layout.title = std::move(title);
    if (std::string paper = reader.text("paper"); !paper.empty()) layout.paper = std::move(paper);
    read_papers(reader, layout);
    read_type(reader, draft);
    read_colours(reader, draft);
    read_pens(reader, draft);
    read_sizes(reader, draft);
    read_all_shown(reader, layout);
    if (const auto mark = reader.choice("decimal_mark", "a decimal mark", decimal_marks)) layout.decimal_mark = *mark;
    read_blocks(reader, layout);
    read_house(reader, layout.house);
    if (const auto carried = reader.flag("certificate_draft")) layout.certificate_draft = *carried;
}

}  // namespace wayfolio::layouts
