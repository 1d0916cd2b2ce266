#include "page/opening.hpp"

namespace wayfolio::page {
namespace {

constexpr double lead_below_label = 24;  // two lines of the grid
constexpr double body_below_label = 18;  // where the lead is set as body, or there is none
constexpr double body_below_lead = 26;   // at least, then on the grid
constexpr double bookmark_above = 12;    // a line above the label, so that a reader who jumps there sees it
constexpr std::size_t most_lead_lines = 3;

}  // namespace

void place_opening(Composer& composer, const report::Opening& opening) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left, width = composer.grid().wide_right - left;
    const Paper top = composer.y;
    composer.set_anchor(opening.anchor);
    composer.add(frame::Bookmark{.level = 1, .title = opening.label, .at = {left, top - pt(bookmark_above)}});
    Placed label = paragraph(tools, Text().strong(opening.label), {.type = TypeRole::Body}, {left, top}, width, frame::Role::Heading1);
    label.group.anchor = opening.anchor;
    composer.add(std::move(label.group));
    Paper last = label.last;
    if (!opening.lead.empty()) {
        const Point at{left, last + pt(lead_below_label)};
        Placed lead = paragraph(tools, opening.lead, {.type = TypeRole::Lead}, at, width);
        // A lead over three lines is set as strong text: it must not push the figure off its place.
        if (lead.lines > most_lead_lines)
            lead = paragraph(tools, report::emphasised(opening.lead), {.type = TypeRole::Body}, {left, last + pt(body_below_label)}, width);
        composer.add(std::move(lead.group));
        last = lead.last;
    }
    if (!opening.body.empty()) {
        const Point at{left, composer.on_grid(last + pt(opening.lead.empty() ? body_below_label : body_below_lead))};
        Placed body = paragraph(tools, opening.body, {.type = TypeRole::Body}, at, width);
        composer.add(std::move(body.group));
        last = body.last;
    }
    composer.y = composer.on_grid(last + tools.layout.size(SizeRole::BlockGap));
}

void place_continued(Composer& composer, const std::string& label) {
    const Text words = Text().strong(label).quiet("  continued");
    composer.add(text_line(composer.tools(), words, {.type = TypeRole::Body}, {composer.grid().left, composer.y}, Align::Left,
                           frame::Role::Paragraph));
    composer.y += composer.grid().baseline_step * 2;
}

}  // namespace wayfolio::page
