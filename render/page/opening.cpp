#include "page/opening.hpp"

#include "page/flowing.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr std::string_view goes_on = ", continued";

constexpr double lead_below_label = 24;  // two lines of the grid
constexpr double body_below_label = 18;  // where the lead is set as body, or there is none
constexpr double body_below_lead = 24;   // at least, then on the grid
constexpr double bookmark_above = 12;    // a line above the label, so that a reader who jumps there sees it
constexpr std::size_t most_lead_lines = 3;

/// Words of an opening that may go on over pages; composer.y is then their last baseline.
void flow_body(Composer& composer, const report::Opening& opening, const Text& words) {
    const Paper left = composer.grid().left;
    place_flowing(composer, {composer.tools(), words, {.type = TypeRole::Body}, composer.grid().wide_right - left}, left,
                  frame::Role::Paragraph, [&](Group lines) { composer.add(std::move(lines)); },
                  [&] { turn_page(composer, opening.label); });
}

}  // namespace

void place_lead(Composer& composer, const report::Opening& opening) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left, width = composer.grid().wide_right - left;
    const Paper top = composer.y;
    composer.set_anchor(opening.anchor);
    composer.add(frame::Bookmark{.level = 1, .title = opening.label, .at = {left, top - pt(bookmark_above)}});
    Placed label = paragraph(tools, Text().strong(opening.label), {.type = TypeRole::Body}, {left, top}, width, frame::Role::Heading1);
    label.group.anchor = opening.anchor;
    composer.add(std::move(label.group));
    composer.y = label.last;
    if (opening.lead.empty()) return;
    Placed lead = paragraph(tools, opening.lead, {.type = TypeRole::Lead}, {left, label.last + pt(lead_below_label)}, width);
    // A lead over three lines is set as strong text: it must not push the figure off its place.
    if (lead.lines > most_lead_lines) {
        composer.y = label.last + pt(body_below_label);
        return flow_body(composer, opening, report::emphasised(opening.lead));
    }
    composer.add(std::move(lead.group));
    composer.y = lead.last;
}

Paper place_opening(Composer& composer, const report::Opening& opening) {
    const int first_page = composer.page_number();
    const Paper top = composer.y;
    place_lead(composer, opening);
    if (!opening.body.empty()) {
        composer.y = composer.on_grid(composer.y + pt(opening.lead.empty() ? body_below_label : body_below_lead));
        flow_body(composer, opening, opening.body);
    }
    composer.y = composer.on_grid(composer.y + composer.tools().layout.size(SizeRole::BlockGap));
    return composer.page_number() == first_page ? top : composer.grid().first_baseline;
}

void place_text_opening(Composer& composer, const report::Opening& opening) {
    if (opening.lead.empty() || composer.y <= composer.grid().first_baseline) {
        place_opening(composer, opening);
        return;
    }
    report::Opening low = opening;
    low.body = report::emphasised(opening.lead);
    low.body.plain(opening.body.empty() ? "" : " ").append(opening.body);
    low.lead = {};
    place_opening(composer, low);
}

Paper text_opening_height(const Composer& composer, const report::Opening& opening) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    const Paper top = trial.y += composer.grid().baseline_step;
    place_text_opening(trial, opening);
    return trial.y - top;
}

Paper opening_height(const Composer& composer, const report::Opening& opening) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    const Paper top = place_opening(trial, opening);
    return trial.y - top;
}

std::string continued_label(const std::string& label) { return label.ends_with(goes_on) ? label : label + std::string(goes_on); }

void place_continued(Composer& composer, const std::string& label, double lines_below) {
    const Paper left = composer.grid().left;
    const std::string chapter = label.ends_with(goes_on) ? label.substr(0, label.size() - goes_on.size()) : label;
    Placed words = paragraph(composer.tools(), Text().strong(chapter).quiet("  continued"), {.type = TypeRole::Body}, {left, composer.y},
                             composer.grid().wide_right - left);
    composer.add(std::move(words.group));
    const Paper step = composer.grid().baseline_step;
    // Tables reach into the margin column: what the last page left for it stands above them.
    composer.y = composer.on_grid(std::max(words.last + step * lines_below, composer.margin_free() + step));
}

void turn_page(Composer& composer, const std::string& label, double lines_below) {
    if (composer.next_column()) return;
    constexpr double least = 60;
    do {
        composer.new_page();
        place_continued(composer, label, lines_below);
    } while (composer.has_margin_rests() && !composer.fits(pt(least)));
    composer.restart_columns();
}

}  // namespace wayfolio::page
