#include "page/lay_out.hpp"

#include "frame/overloaded.hpp"
#include "frame/walk.hpp"
#include "page/filling/fill_pages.hpp"
#include "page/issuer.hpp"

#include <algorithm>
#include <iterator>

namespace wayfolio::page {
namespace {

/// A notice is read on every page: it takes a second line before it is cut.
std::vector<Text> notice_lines(const Tools& tools, const std::string& words, const Look& look, Paper width) {
    const std::vector<text::Line> broken =
        tools.shaper.paragraph(plot::pieces(tools, Text(words), look), plot::text_style(tools, look), width);
    if (broken.size() <= 1) return {Text(words)};
    std::string first;
    for (const frame::GlyphRun& run : broken.front().runs) first += run.text;
    return {Text(first), fitted(tools, words.substr(first.size()), look, width)};
}

constexpr double logo_width = 72;

/// Where head and notice stand, and how much room they have.
struct RunningRoom {
    static constexpr double between = 12;
    Paper column, margin, first_line;
    RunningRoom(const layouts::PaperGrid& grid, const report::RunningText& running)
        : column(grid.margin_left - grid.left - pt(between)),
          margin(grid.margin_right - grid.margin_left),
          first_line(grid.margin_right - grid.left - (running.logo ? pt(logo_width + between) : Paper{})) {}
};

/// Whether head, notice or first line have to be cut.
bool cuts_running_text(const report::RunningText& running, const Tools& tools) {
    const Look grey{.colour = ColourRole::Grey};
    const RunningRoom room(tools.layout.grid(), running);
    constexpr std::size_t notice_lines = 2;
    return plot::width_of(tools, Text(running.first_line), grey) > room.first_line ||
           plot::width_of(tools, Text(running.head_left), grey) > room.column ||
           FlowingText(tools, Text(running.foot_right), grey, room.margin).size() > notice_lines ||
           (running.issuer && cuts_issuer(*running.issuer, running.logo.has_value(), tools));
}

/// The model, with head and foot said in full before the report's last words.
report::Model with_running_text(report::Model model) {
    auto* alone = model.blocks.empty() ? nullptr : std::get_if<report::Answer>(&model.blocks.front());
    if (alone != nullptr && alone->stands_alone) {
        alone->shortened = report::lines_in_full(model.running);
        return model;
    }
    const auto* last = model.blocks.empty() ? nullptr : std::get_if<report::Sections>(&model.blocks.back());
    model.blocks.insert(model.blocks.end() - (last != nullptr && last->ends_report ? 1 : 0), report::in_full(model.running));
    return model;
}

/// What a page says beside its content: read aloud where it stands for the first time, decoration on every other page.
struct Running {
    std::vector<Group> before, after;  ///< of the content
};

/// Head and foot stand on the two column edges, without rules.
Running running(const report::Model& model, const Tools& tools, std::size_t page, std::size_t pages) {
    const auto& grid = tools.layout.grid();
    const Look grey{.colour = ColourRole::Grey};
    const frame::Role said = page == 1 ? frame::Role::Paragraph : frame::Role::Artifact;
    const RunningRoom room(grid, model.running);
    const auto line = [&](const Text& words, Point at, frame::Role role) { return text_line(tools, words, grey, at, Align::Left, role); };
    Running made;
    const std::string number = "Page " + std::to_string(page) + " of " + std::to_string(pages);
    if (page == 1 && model.running.issuer) {
        made.before = issuer_block(model.running, tools, number);
    } else {
        const Text head = fitted(tools, model.running.head_left, grey, room.column);
        made.before.push_back(line(head, {grid.left, grid.head_baseline}, said));
        const Text counted(number + (model.running.draft.empty() ? "" : "   "));
        const Point at{grid.margin_left, grid.head_baseline};
        made.before.push_back(line(counted, at, frame::Role::Artifact));
        if (!model.running.draft.empty())
            made.before.push_back(line(Text().strong(model.running.draft), {at.x + plot::width_of(tools, counted, grey), at.y}, said));
    }
    if (page == 1 && !model.running.first_line.empty()) {
        const Paper below = model.running.issuer ? issuer_first_baseline : grid.head_baseline;
        const Point at{grid.left, below - plot::text_style(tools, grey).leading};
        made.before.insert(made.before.begin(),
                           line(fitted(tools, model.running.first_line, grey, room.first_line), at, frame::Role::Paragraph));
    }
    made.after.push_back(
        line(fitted(tools, model.running.foot_left, grey, room.column), {grid.left, grid.foot_baseline}, frame::Role::Artifact));
    Group notice = plot::grouped(said, {});
    Point at{grid.margin_left, grid.foot_baseline};
    for (const Text& words : notice_lines(tools, model.running.foot_right, grey, room.margin)) {
        plot::put(notice.items, tools, words, grey, at);
        at.y += plot::text_style(tools, grey).leading;
    }
    made.after.push_back(std::move(notice));
    return made;
}

/// Under a table that goes on.
Group continued(const Tools& tools, Point right_end, std::size_t page) {
    return text_line(tools, Text("continued on page\u00a0" + std::to_string(page)), {.colour = ColourRole::Grey}, right_end, Align::Right,
                     frame::Role::Artifact);
}

/// The laboratory's logo at the top right of the first page, above the facts.
Group logo(const document::Picture& picture, const Tools& tools) {
    const auto& grid = tools.layout.grid();
    constexpr double height = 32, above_facts = 24;
    const auto format = picture.format == document::Picture::Format::Svg ? frame::Image::Format::Svg : frame::Image::Format::Png;
    const Rect box{grid.margin_right - pt(logo_width), grid.first_baseline - pt(above_facts + height), pt(logo_width), pt(height)};
    return artifact({frame::Image{.box = box, .format = format, .bytes = std::make_shared<const std::string>(picture.bytes)}});
}

bool draws(const Item& item) {
    const auto seen = [](const auto&) { return frame::Walk::Stop; };
    return !frame::walk(item, frame::overloaded{[](const Group&) { return frame::Walk::On; }, seen});
}

/// Rules, markers and symbols of a page as one artifact under its texts and figures: each artifact costs an output the same as a paragraph.
void gather_artifacts(std::vector<Item>& items) {
    const auto is_artifact = [](const Item& item) {
        const auto* group = std::get_if<Group>(&item);
        return group && group->role == frame::Role::Artifact;
    };
    Group all = artifact({});
    std::vector<Item> others;
    for (Item& item : items)
        if (draws(item)) (is_artifact(item) ? all.items : others).push_back(std::move(item));
    items = std::move(others);
    // An artifact holds no artifact: its parts become plain.
    for (Item& part : all.items) std::get<Group>(part).role = frame::Role::Plain;
    if (!all.items.empty()) items.insert(items.begin(), Item(std::move(all)));
}

}  // namespace

std::vector<frame::Frame> lay_out(const report::Model& model, const Tools& tools) {
    const bool cuts = cuts_running_text(model.running, tools);
    std::vector<Draft> drafts = cuts ? fill_pages(with_running_text(model), tools) : fill_pages(model, tools);
    const auto& grid = tools.layout.grid();
    std::vector<frame::Frame> frames;
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        frame::Frame page{.width = grid.width, .height = grid.height, .label = std::to_string(i + 1), .items = std::move(drafts[i].items)};
        if (drafts[i].goes_on) page.items.emplace_back(continued(tools, *drafts[i].goes_on, i + 2));
        if (i == 0 && model.running.logo && !model.running.issuer) page.items.emplace_back(logo(*model.running.logo, tools));
        Running around = running(model, tools, i + 1, drafts.size());
        page.items.insert(page.items.begin(), std::make_move_iterator(around.before.begin()), std::make_move_iterator(around.before.end()));
        page.items.insert(page.items.end(), std::make_move_iterator(around.after.begin()), std::make_move_iterator(around.after.end()));
        gather_artifacts(page.items);
        frames.push_back(std::move(page));
    }
    return frames;
}

}  // namespace wayfolio::page
