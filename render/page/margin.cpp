#include "page/margin.hpp"

#include "page/spacing.hpp"

#include "plot/approach_roles.hpp"
#include "plot/marks/curves.hpp"
#include "plot/marks/verdict_symbol.hpp"

#include <algorithm>
#include <iterator>

namespace wayfolio::page {
namespace {

const Look margin_body{.type = TypeRole::Body}, margin_small{};
constexpr double below_another = 10;  // a verdict or a value stands 14 pt below a key, or below what belongs to another
constexpr double number_after_symbol = 16, words_after_swatch = 28;
constexpr double swatch_width = 22, swatch_height = 8, key_pitch = 14, notes_below_heading = 12, next_note = 12;

Paper margin_left(const Composer& composer) { return composer.grid().margin_left; }
Paper margin_width(const Composer& composer) { return composer.grid().margin_right - composer.grid().margin_left; }

/// Where something wanted at `anchor` can start: pushed down until the column is free.
Paper free_from(Composer& composer, Paper anchor, Paper ascent) {
    constexpr double step = 2;
    while (anchor - ascent < composer.margin_free()) anchor += pt(step);
    return anchor;
}

Paper taken(Composer& composer, Paper last) {
    constexpr double below = 4;
    composer.margin_free() = std::max(composer.margin_free(), last + pt(below));
    return last;
}

/// What has no room above the page's foot goes on in the margin of the next page.
Paper add_paragraph(Composer& composer, const Text& words, const Look& look, Point top, Paper room,
                    std::vector<Item>* into_figure = nullptr) {
    FlowingText text(composer.tools(), words, look, room);
    const std::size_t lines = composer.lines_in_margin(text.size(), text.leading(), top.y);
    Placed placed = text.part(0, lines, top, frame::Role::Paragraph);
    if (into_figure != nullptr) std::ranges::move(placed.group.items, std::back_inserter(*into_figure));
    else if (lines > 0) composer.add(std::move(placed.group));
    composer.leave_for_next_margin(std::move(text), lines, top.x);
    return placed.last;
}

struct Entry {
    std::string words;
    bool positive = false, negative = false, band = false, run = false, pale = false, mean = false, cross = false, trace = false,
         overlap = false;
};

std::vector<Entry> entries_of(const Key& key) {
    std::vector<Entry> entries;
    const std::string form = key.bands ? ", mean\u00a0±\u00a02\u202f" : key.runs_each_way == 1 ? ", one run" : "";
    if (key.positive) entries.push_back({.words = "positive" + form, .positive = true, .band = key.bands});
    if (key.negative) entries.push_back({.words = "negative" + form, .negative = true, .band = key.bands});
    if (key.positive && key.negative && key.bands) entries.push_back({.words = "both bands, overlapping", .overlap = true});
    if (key.mean) entries.push_back({.words = "bi-directional mean", .mean = true});
    if (key.runs) entries.push_back({.words = "single runs, ", .run = true});
    if (!key.pale_means.empty()) entries.push_back({.words = key.pale_means, .pale = true});
    if (key.trace) entries.push_back({.words = "trace on the fly", .trace = true});
    if (key.excluded)
        entries.push_back(
            {.words = "excluded" + (key.readings_page > 0 ? ", page\u00a0" + std::to_string(key.readings_page) : std::string()),
             .cross = true});
    return entries;
}

Text words_of_entry(const Entry& entry, const Key& key) {
    Text words(entry.words);
    if (entry.band) words.symbol("s");
    if (entry.run) words.symbol("n").plain("\u00a0=\u00a0" + std::to_string(key.runs_each_way));
    return words;
}

/// Both tints and both hatches on each other.
void draw_overlap(std::vector<Item>& into, const Tools& tools, const Rect& box) {
    frame::Path area = plot::rectangle(tools, ColourRole::PositiveTint, box);
    area.fill = plot::multiplied(tools.layout.colour(ColourRole::PositiveTint), tools.layout.colour(ColourRole::NegativeTint));
    into.emplace_back(std::move(area));
    const std::vector<Point> corners{
        {box.left, box.top}, {box.right(), box.top}, {box.right(), box.bottom()}, {box.left, box.bottom()}};
    for (const auto approach : document::both_approaches) {
        const bool positive = approach == report::Approach::Positive;
        frame::Stroke pen = plot::stroke(tools, PenRole::BandHatch);
        pen.colour = tools.layout.colour(plot::roles_of(approach).hatch);
        into.emplace_back(plot::hatch(pen, corners, tools.layout.size(SizeRole::HatchPitch),
                                      positive ? plot::HatchSlope::Rising : plot::HatchSlope::Falling));
    }
}

void draw_swatch(std::vector<Item>& into, const Tools& tools, const Entry& entry, Point middle_left) {
    const Paper right = middle_left.x + pt(swatch_width), middle = middle_left.y, half = pt(swatch_height / 2);
    const auto across = [&](PenRole pen, Paper y) { into.emplace_back(plot::line(tools, pen, {middle_left.x, y}, {right, y})); };
    const auto approach = entry.positive ? report::Approach::Positive : report::Approach::Negative;
    const plot::ApproachRoles roles = plot::roles_of(approach);
    if (entry.band) {
        const std::vector<Point> box{
            {middle_left.x, middle - half}, {right, middle - half}, {right, middle + half}, {middle_left.x, middle + half}};
        frame::Stroke pen = plot::stroke(tools, PenRole::BandHatch);
        pen.colour = tools.layout.colour(roles.hatch);
        into.emplace_back(plot::filled(tools, roles.tint, box));
        into.emplace_back(plot::hatch(pen, box, tools.layout.size(SizeRole::HatchPitch),
                                      entry.positive ? plot::HatchSlope::Rising : plot::HatchSlope::Falling));
    }
    if (entry.overlap) draw_overlap(into, tools, {middle_left.x, middle - half, pt(swatch_width), half * 2});
    if (entry.positive || entry.negative) {
        if (entry.band)
            for (const Paper edge : {middle - half, middle + half}) across(roles.edge, edge);
        across(roles.mean, middle);
        into.emplace_back(plot::marks::marker(tools, approach, {middle_left.x + pt(swatch_width / 2), middle},
                                              tools.layout.size(SizeRole::MarkerRadius)));
    }
    if (entry.mean) across(PenRole::Mean, middle);
    if (entry.trace) across(PenRole::Trace, middle);
    if (entry.run) {
        for (const auto& [colour, dy] : {std::pair(ColourRole::PositiveRun, -1.5), std::pair(ColourRole::NegativeRun, 1.5)}) {
            frame::Path path = plot::line(tools, PenRole::Run, {middle_left.x, middle + pt(dy)}, {right, middle + pt(dy)});
            path.stroke->colour = tools.layout.colour(colour);
            into.emplace_back(std::move(path));
        }
    }
    if (entry.pale) {
        constexpr double apart = 1.5;
        across(PenRole::PalePositiveMean, middle - pt(apart));
        across(PenRole::PaleNegativeMean, middle + pt(apart));
    }
    if (entry.cross) {
        plot::cross(into, tools, {middle_left.x + pt(swatch_width / 2), middle});
    }
}

/// Where the words of a verdict begin: behind its symbol, if it has one.
Paper verdict_words_left(const Composer& composer, const report::Verdict& verdict) {
    return margin_left(composer) + (verdict.standing == report::Standing::NoLimit ? Paper{} : pt(symbol_room));
}

}  // namespace

Paper margin_verdict_height(const Composer& composer, const report::Verdict& verdict) {
    const Paper room = composer.grid().margin_right - verdict_words_left(composer, verdict);
    return paragraph_height(composer.tools(), verdict.word, margin_body, room);
}

Paper margin_verdict(Composer& composer, const report::Verdict& verdict, Paper anchor, const std::vector<Text>& lines) {
    const Tools& tools = composer.tools();
    Paper at = free_from(composer, anchor, pt(below_another));
    const Paper text_left = verdict_words_left(composer, verdict);
    if (verdict.standing != report::Standing::NoLimit)
        composer.add(artifact({plot::marks::verdict_symbol(tools, verdict.standing, margin_left(composer), at)}));
    const Paper room = composer.grid().margin_right - text_left;
    Paper last = add_paragraph(composer, verdict.word, margin_body, {text_left, at}, room);
    constexpr double second_line = 11.5;
    Paper next = verdict.word.empty() ? at : last + pt(second_line);
    for (const Text& words : lines) {
        last = add_paragraph(composer, words, {.type = TypeRole::Small, .colour = ColourRole::Grey}, {text_left, next}, room);
        next = last + tools.layout.type(TypeRole::Small).leading;
    }
    return taken(composer, last);
}

Paper margin_caption(Composer& composer, Group& figure, const std::string& number, const Text& caption, Paper anchor) {
    const Tools& tools = composer.tools();
    const Paper at = free_from(composer, anchor, pt(small_ascent));
    // With a space, for those who hear it or copy it.
    Group group = text_line(tools, Text().strong(number).plain(" "), margin_small, {margin_left(composer), at}, Align::Left,
                            frame::Role::Caption);
    constexpr double below_number = 12;
    const Paper last = add_paragraph(composer, caption, margin_small, {margin_left(composer), at + pt(below_number)},
                                     margin_width(composer), &group.items);
    figure.items.insert(figure.items.begin(), Item(std::move(group)));
    constexpr double below_caption = 8;
    taken(composer, last + pt(below_caption));
    return last;
}

Paper margin_value(Composer& composer, const report::MarginValue& value, Paper anchor) {
    if (value.symbol.empty() || (value.number.empty() && value.notes.empty())) return anchor;
    const Paper at = free_from(composer, anchor, pt(below_another));
    Group group;
    group.role = frame::Role::Paragraph;
    const std::string join = value.number.empty() ? "" : " ";
    plot::put(group.items, composer.tools(), Text().symbol(value.symbol).plain(join), margin_body, {margin_left(composer), at});
    plot::put(group.items, composer.tools(), value.number, margin_body, {margin_left(composer) + pt(number_after_symbol), at});
    composer.add(std::move(group));
    Paper last = at;
    Paper next = at + pt(value.number.empty() ? 0 : 11);
    for (const Text& note : value.notes) {
        last = add_paragraph(composer, note, {.type = TypeRole::Small, .colour = ColourRole::Grey},
                             {margin_left(composer) + pt(number_after_symbol), next}, margin_width(composer) - pt(number_after_symbol));
        next = last + composer.tools().layout.type(TypeRole::Small).leading;
    }
    return taken(composer, last);
}

Paper margin_notes(Composer& composer, const std::string& heading, const std::vector<Text>& notes, Paper anchor) {
    Paper at = free_from(composer, anchor, pt(small_ascent));
    Paper last = at;
    if (!heading.empty() && !notes.empty() && composer.lines_in_margin(2, pt(notes_below_heading), at) < 2) {
        composer.leave_for_next_margin({composer.tools(), Text().strong(heading), margin_small, margin_width(composer)}, 0,
                                       margin_left(composer));
        at += pt(notes_below_heading);
    } else if (!heading.empty()) {
        Group group = text_line(composer.tools(), Text().strong(heading), margin_small, {margin_left(composer), at}, Align::Left,
                                frame::Role::Heading2);
        composer.add(std::move(group));
        at += pt(notes_below_heading);
    }
    for (const Text& note : notes) {
        last = add_paragraph(composer, note, margin_small, {margin_left(composer), at}, margin_width(composer));
        at = last + pt(next_note);
    }
    return taken(composer, last);
}

Paper margin_notes_height(const Composer& composer, const std::vector<Text>& notes) {
    Paper height{};
    for (const Text& note : notes) {
        if (&note != &notes.front()) height += pt(next_note);
        height += paragraph_height(composer.tools(), note, margin_small, margin_width(composer));
    }
    return height;
}

Key key_of(const report::DeviationPlot& plot, std::size_t runs_each_way) {
    using report::Approach;
    const auto has = [&](std::optional<Approach> approach) {
        return std::ranges::any_of(plot.targets, [&](const auto& t) { return t.mean_of(approach).has_value(); });
    };
    return {.positive = has(Approach::Positive), .negative = has(Approach::Negative), .bands = plot.bands,
            .runs = !plot.runs.empty(), .mean = has(std::nullopt), .excluded = !plot.excluded.empty(), .trace = !plot.trace.empty(),
            .pale_means = plot.pale_means ? plot.pale_means->words : "", .runs_each_way = runs_each_way};
}

Paper margin_key(Composer& composer, const Key& key, Paper anchor) {
    constexpr double raise = 2.7;  // swatch middle above the baseline
    Paper at = free_from(composer, anchor, pt(body_ascent));
    Paper last = at;
    for (const Entry& entry : entries_of(key)) {
        std::vector<Item> swatch;
        draw_swatch(swatch, composer.tools(), entry, {margin_left(composer), at - pt(raise)});
        composer.add(artifact(std::move(swatch)));
        composer.add(text_line(composer.tools(), words_of_entry(entry, key), margin_small,
                               {margin_left(composer) + pt(words_after_swatch), at}, Align::Left, frame::Role::Paragraph));
        last = at;
        at += pt(key_pitch);
    }
    return taken(composer, last);
}

}  // namespace wayfolio::page
