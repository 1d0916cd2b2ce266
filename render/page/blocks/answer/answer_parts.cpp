#include "page/blocks/answer/answer_parts.hpp"

#include "page/flowing.hpp"
#include "page/opening.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double number_room = 14;

bool begins_below_heading(Composer& composer, const FlowingText& first) {
    const Paper heading = composer.y;
    composer.y += composer.grid().baseline_step;
    const bool begins = lines_here(composer, first.size(), first.leading()) > 0;
    composer.y = heading;
    return begins;
}

}  // namespace

Paper place_facts(Composer& composer, const std::vector<report::Fact>& facts, Paper top) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    constexpr double values_at = 38, between = 2.5;
    Paper at = top;
    Group list = plot::grouped(frame::Role::Table, {});
    Group body = plot::grouped(frame::Role::TableBody, {});
    const Paper values = grid.margin_left + pt(values_at), leading = tools.layout.type(TypeRole::Small).leading;
    for (const report::Fact& fact : facts) {
        const bool below_foot = composer.lines_in_margin(1, leading, at) == 0;
        const Look grey{.colour = ColourRole::Grey};
        Group row = plot::grouped(frame::Role::TableRow, {});
        Group name = plot::grouped(frame::Role::HeadCell, {});
        name.scope = frame::Scope::Row;
        if (below_foot)
            composer.leave_for_next_margin({tools, Text(fact.name), grey, grid.margin_right - grid.margin_left}, 0, grid.margin_left);
        else plot::put(name.items, tools, fact.name, grey, {grid.margin_left, at});
        row.items.emplace_back(std::move(name));
        Group value = plot::grouped(frame::Role::DataCell, {});
        for (const Text& line : fact.lines) {
            FlowingText words(tools, line, {}, grid.margin_right - values);
            const std::size_t here = composer.lines_in_margin(words.size(), leading, at);
            Placed placed = words.part(0, here, {values, at}, frame::Role::Paragraph);
            if (here > 0) value.items.emplace_back(std::move(placed.group));
            composer.leave_for_next_margin(std::move(words), here, values);
            at = placed.last + leading;
        }
        row.items.emplace_back(std::move(value));
        if (!below_foot) body.items.emplace_back(std::move(row));
        at += pt(between);
    }
    list.items.emplace_back(std::move(body));
    if (!facts.empty()) composer.add(std::move(list));
    composer.margin_free() = std::max(composer.margin_free(), at);
    return at;
}

Paper words_height(Composer& composer, const std::vector<Text>& paragraphs, bool numbered) {
    if (paragraphs.empty()) return {};
    const auto& grid = composer.grid();
    Paper height = grid.baseline_step * 2;
    for (const Text& words : paragraphs)
        height += grid.baseline_step + paragraph_height(composer.tools(), words, {.type = TypeRole::Body},
                                                        grid.wide_right - grid.left - pt(numbered ? number_room : 0));
    return height;
}

void place_words(Composer& composer, const report::Answer& block, const std::string& heading, const std::vector<Text>& paragraphs,
                 bool numbered) {
    if (paragraphs.empty()) return;
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper indent = pt(numbered ? number_room : 0), width = grid.wide_right - grid.left - indent;
    Group list = plot::grouped(frame::Role::List, {});
    const auto go_on = [&] {
        if (!list.items.empty()) composer.add(std::exchange(list, plot::grouped(frame::Role::List, {})));
        turn_page(composer, block.opening.label);
    };
    const auto broken = [&](const Text& words) { return FlowingText(tools, words, {.type = TypeRole::Body}, width); };
    if (!begins_below_heading(composer, broken(paragraphs[0]))) go_on();
    composer.add(
        text_line(tools, Text().strong(heading), {.type = TypeRole::Body}, {grid.left, composer.y}, Align::Left, frame::Role::Heading2));
    composer.y += grid.baseline_step;
    for (std::size_t i = 0; i < paragraphs.size(); ++i) {
        bool begun = false;
        const auto add = [&](Group lines) {
            if (!numbered) return composer.add(std::move(lines));
            Group item = plot::grouped(frame::Role::ListItem, {});
            if (!std::exchange(begun, true))
                item.items.emplace_back(text_line(tools, std::to_string(i + 1), {.type = TypeRole::Body}, {grid.left, composer.y},
                                                  Align::Left, frame::Role::ListLabel));
            item.items.emplace_back(std::move(lines));
            list.items.emplace_back(std::move(item));
        };
        place_flowing(composer, broken(paragraphs[i]), grid.left + indent, numbered ? frame::Role::ListBody : frame::Role::Paragraph, add,
                      go_on);
        composer.y += grid.baseline_step;
    }
    if (!list.items.empty()) composer.add(std::move(list));
    composer.y += grid.baseline_step;
}

}  // namespace wayfolio::page
