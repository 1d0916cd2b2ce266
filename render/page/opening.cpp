#include "page/opening.hpp"

#include "page/flowing.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr double lead_below_label = 24;  // two lines of the grid
constexpr double body_below_label = 18;  // where the lead is set as body, or there is none
constexpr double body_below_lead = 26;   // at least, then on the grid
constexpr double bookmark_above = 12;    // a line above the label, so that a reader who jumps there sees it
constexpr std::size_t most_lead_lines = 3;

}  // namespace

Paper place_opening(Composer& composer, const report::Opening& opening) {
    const Tools& tools = composer.tools();
    const int first_page = composer.page_number();
    const Paper left = composer.grid().left, width = composer.grid().wide_right - left;
    const Paper top = composer.y;
    composer.set_anchor(opening.anchor);
    composer.add(frame::Bookmark{.level = 1, .title = opening.label, .at = {left, top - pt(bookmark_above)}});
    Placed label = paragraph(tools, Text().strong(opening.label), {.type = TypeRole::Body}, {left, top}, width, frame::Role::Heading1);
    label.group.anchor = opening.anchor;
    composer.add(std::move(label.group));
    Paper last = label.last;
    const auto go_on = [&](const Text& words, Paper top_line) {
        composer.y = top_line;
        place_flowing(composer, {tools, words, {.type = TypeRole::Body}, width}, left, frame::Role::Paragraph,
                      [&](Group lines) { composer.add(std::move(lines)); }, [&] { turn_page(composer, opening.label); });
        last = composer.y;
    };
    if (!opening.lead.empty()) {
        Placed lead = paragraph(tools, opening.lead, {.type = TypeRole::Lead}, {left, last + pt(lead_below_label)}, width);
        // A lead over three lines is set as strong text: it must not push the figure off its place.
        if (lead.lines > most_lead_lines) {
            go_on(report::emphasised(opening.lead), last + pt(body_below_label));
        } else {
            composer.add(std::move(lead.group));
            last = lead.last;
        }
    }
    if (!opening.body.empty()) go_on(opening.body, composer.on_grid(last + pt(opening.lead.empty() ? body_below_label : body_below_lead)));
    composer.y = composer.on_grid(last + tools.layout.size(SizeRole::BlockGap));
    return composer.page_number() == first_page ? top : composer.grid().first_baseline;
}

Paper opening_height(const Composer& composer, const report::Opening& opening) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    const Paper top = place_opening(trial, opening);
    return trial.y - top;
}

void place_continued(Composer& composer, const std::string& label) {
    const Paper left = composer.grid().left;
    Placed words = paragraph(composer.tools(), Text().strong(label).quiet("  continued"), {.type = TypeRole::Body}, {left, composer.y},
                             composer.grid().wide_right - left);
    composer.add(std::move(words.group));
    const Paper step = composer.grid().baseline_step;
    // Tables reach into the margin column: what the last page left for it stands above them.
    composer.y = composer.on_grid(std::max(words.last + step * 2, composer.margin_free() + step));
}

void turn_page(Composer& composer, const std::string& label) {
    if (composer.next_column()) return;
    constexpr double least = 60;
    do {
        composer.new_page();
        place_continued(composer, label);
    } while (composer.has_margin_rests() && !composer.fits(pt(least)));
    composer.restart_columns();
}

}  // namespace wayfolio::page
