#include "catalogue/history_figure.hpp"
#include "catalogue/history_words.hpp"
#include "catalogue/query.hpp"

#include "input/digest.hpp"
#include "produce/input_list.hpp"
#include "plot/figures/history_figure.hpp"
#include "input/encoding.hpp"
#include "output/output.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <stdexcept>

namespace wayfolio::catalogue {
namespace {

using plot::pt;

constexpr std::string_view data_name = "wayfolio-history.json";

std::string title_of(const History& history) {
    const std::string machine = history.machine.empty() ? "History of a machine" : "History of " + history.machine;
    return input::printable(machine + (history.serial.empty() ? "" : "; serial " + history.serial));
}

std::string subtitle_of(const History& history) {
    std::string text = fmt::format("{} {}", history.visits, history.visits == 1 ? "visit" : "visits");
    text += history.from == history.to ? " on " + history.from : " from " + history.from + " to " + history.to;
    if (!history.customer.empty()) text += "; " + input::printable(history.customer);
    if (!history.left_out.empty()) text += fmt::format("; {} left out", history.left_out.size());
    if (const auto more = lines_without_room(history); !more.empty())
        text += fmt::format("; not drawn, no space left: {}", fmt::join(more, ", "));
    return text;
}

/// Lines of a paragraph from `at` down; moves `at` below the last.
void put_paragraph(std::vector<frame::Item>& into, const plot::Tools& tools, const report::Text& words, const plot::Look& look,
                   frame::Point& at, units::Paper width) {
    const text::TextStyle style = plot::text_style(tools, look);
    for (const text::Line& line : tools.shaper.paragraph(plot::pieces(tools, words, look), style, width)) {
        for (auto& run : text::placed(line, at)) into.emplace_back(std::move(run));
        at.y += style.leading;
    }
}

/// One panel is as wide as the report's column, two columns of them as the report's page.
units::Paper sheet_width(const plot::Tools& tools, std::size_t panels) {
    const auto& grid = tools.layout.grid();
    return (panels > 1 ? grid.margin_right : grid.wide_right) - grid.left;
}

produce::InputList inputs_of_history(const HistoryDrawing& drawing, const std::string& data) {
    evaluate::Json list{{"format", "wayfolio-inputs"}, {"version", 1}, {"drawn", {{"what", "history"}, {"paper", drawing.layout.paper}}}};
    list["document"] = produce::file_json(data_name, input::sha256_hex(data));
    return produce::input_list(std::move(list), drawing.layout, drawing.shaper, drawing.versions);
}

frame::Frame sheet_of(const HistoryDrawing& drawing, const produce::InputList& inputs) {
    const plot::Tools tools{drawing.layout, drawing.shaper};
    const report::HistoryPlot plot = history_plot(drawing.history, {drawing.layout.decimal_mark});
    const units::Paper margin = drawing.layout.size(layouts::SizeRole::FigureMargin), width = sheet_width(tools, plot.panels.size());
    constexpr double first_baseline = 8, above_panels = 10, above_foot = 10, of_foot_for_notices = 0.62;
    frame::Point at{margin, margin + pt(first_baseline)};
    std::vector<frame::Item> title, lead, subtitle, foot;
    put_paragraph(title, tools, report::Text().strong(title_of(drawing.history)), {.type = layouts::TypeRole::Body}, at, width);
    put_paragraph(lead, tools, lead_of(drawn_lines(drawing.history)), {.type = layouts::TypeRole::Body}, at, width);
    put_paragraph(subtitle, tools, subtitle_of(drawing.history), {.colour = layouts::ColourRole::Grey}, at, width);
    plot::HistoryFigure figure = plot::history_figure(tools, plot, margin, margin + width, at.y + pt(above_panels));
    at.y = figure.bottom + tools.layout.type(layouts::TypeRole::Small).leading + pt(above_foot);
    plot::put(foot, tools, "fingerprint " + produce::short_form(inputs.fingerprint), {.colour = layouts::ColourRole::Grey},
              {margin + width, at.y}, plot::Align::Right);
    for (const std::string& notice : drawing.history.notices)
        put_paragraph(foot, tools, notice, {.colour = layouts::ColourRole::Grey}, at, width * of_foot_for_notices);
    if (drawing.history.notices.empty()) at.y += tools.layout.type(layouts::TypeRole::Small).leading;
    frame::Frame frame{.width = width + margin * 2, .height = at.y + pt(2), .label = "", .items = {}};
    frame.items.emplace_back(plot::grouped(frame::Role::Heading1, std::move(title)));
    if (!lead.empty()) frame.items.emplace_back(plot::grouped(frame::Role::Paragraph, std::move(lead)));
    frame.items.emplace_back(plot::grouped(frame::Role::Paragraph, std::move(subtitle)));
    for (frame::Item& item : figure.items) frame.items.push_back(std::move(item));
    frame.items.emplace_back(plot::grouped(frame::Role::Paragraph, std::move(foot)));
    return frame;
}

/// Six panels below title and what the visits were, with their key; the foot as in a report.
frame::Frame page_of(const HistoryDrawing& drawing, const report::HistoryPlot& plot, const std::string& fingerprint, std::size_t page,
                     std::size_t pages) {
    const plot::Tools tools{drawing.layout, drawing.shaper};
    const auto& grid = drawing.layout.grid();
    constexpr double above_panels = 12, above_lead = 10;
    const plot::Look grey{.colour = layouts::ColourRole::Grey};
    const units::Paper width = grid.margin_right - grid.left;
    frame::Frame frame{.width = grid.width, .height = grid.height, .label = std::to_string(page), .items = {}};
    std::vector<frame::Item> head, title, lead, subtitle;
    plot::put(head, tools, fmt::format("Page {} of {}", page, pages), grey, {grid.margin_left, grid.head_baseline});
    plot::put(head, tools, "fingerprint " + fingerprint, grey, {grid.left, grid.foot_baseline});
    if (!drawing.history.notices.empty())
        plot::put(head, tools, drawing.history.notices.front(), grey, {grid.margin_left, grid.foot_baseline});
    frame.items.emplace_back(plot::grouped(frame::Role::Artifact, std::move(head)));
    frame::Point at{grid.left, grid.first_baseline};
    put_paragraph(title, tools, report::Text().strong(title_of(drawing.history)), {.type = layouts::TypeRole::Body}, at, width);
    // What the visits show together stands once, over all their panels.
    if (const report::Text words = lead_of(drawn_lines(drawing.history)); page == 1 && !words.empty()) {
        at.y += pt(above_lead);
        put_paragraph(lead, tools, words, {.type = layouts::TypeRole::Lead}, at, width);
    }
    put_paragraph(subtitle, tools, subtitle_of(drawing.history), grey, at, width);
    frame.items.emplace_back(plot::grouped(frame::Role::Heading1, std::move(title)));
    if (!lead.empty()) frame.items.emplace_back(plot::grouped(frame::Role::Paragraph, std::move(lead)));
    frame.items.emplace_back(plot::grouped(frame::Role::Paragraph, std::move(subtitle)));
    plot::HistoryFigure figure =
        plot::history_figure(tools, plot, grid.left, grid.margin_right, at.y + pt(above_panels), grid.last_baseline);
    for (frame::Item& item : figure.items) frame.items.push_back(std::move(item));
    return frame;
}

std::vector<frame::Frame> pages_of(const HistoryDrawing& drawing, const produce::InputList& inputs) {
    constexpr std::size_t panels_of_page = 6;
    const report::HistoryPlot all = history_plot(drawing.history, {drawing.layout.decimal_mark});
    const std::size_t pages = std::max<std::size_t>(1, (all.panels.size() + panels_of_page - 1) / panels_of_page);
    std::vector<frame::Frame> made;
    for (std::size_t page = 0; page < pages; ++page) {
        report::HistoryPlot plot{all.from, all.to, {}};
        for (std::size_t i = page * panels_of_page; i < std::min(all.panels.size(), (page + 1) * panels_of_page); ++i)
            plot.panels.push_back(all.panels[i]);
        made.push_back(page_of(drawing, plot, produce::short_form(inputs.fingerprint), page + 1, pages));
    }
    return made;
}

/// What an SVG's metadata hold: as those of every figure, with the history in place of a series.
std::string shown_history(const produce::InputList& inputs, const std::string& data) {
    evaluate::Json json = produce::signed_json(inputs);
    json["history"] = evaluate::Json::parse(data);
    return evaluate::to_line(json);
}

}  // namespace

frame::Frame history_frame(const HistoryDrawing& drawing) {
    return sheet_of(drawing, inputs_of_history(drawing, history_json(drawing.history)));
}

std::vector<frame::Frame> history_pages(const HistoryDrawing& drawing) {
    return pages_of(drawing, inputs_of_history(drawing, history_json(drawing.history)));
}

std::string history_bytes(const HistoryDrawing& drawing, produce::FigureFormat format) {
    const std::string data = history_json(drawing.history);
    const produce::InputList inputs = inputs_of_history(drawing, data);
    output::Metadata metadata{
        .title = title_of(drawing.history), .author = "", .subject = subtitle_of(drawing.history), .created = drawing.history.to};
    produce::sign(metadata, inputs);
    switch (format) {
        case produce::FigureFormat::Svg:
            metadata.shown_data = shown_history(inputs, data);
            return output::svg(sheet_of(drawing, inputs), metadata, drawing.shaper);
        case produce::FigureFormat::Pdf:
            return output::pdf(pages_of(drawing, inputs), metadata, drawing.shaper,
                               {{.name = std::string(data_name),
                                 .mime = produce::media_type(data_name),
                                 .bytes = data,
                                 .relationship = output::Relationship::Data,
                                 .description = "Every value of the figure, with its record"}});
        case produce::FigureFormat::Png: return output::png(sheet_of(drawing, inputs), drawing.shaper);
    }
    throw std::logic_error("a figure format without a writer");
}

}  // namespace wayfolio::catalogue
