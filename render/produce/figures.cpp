#include "produce/figure_maker.hpp"
#include "produce/input_list.hpp"
#include "produce/unset_text.hpp"

#include "plot/figures/figures.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/curves.hpp"
#include "report/blocks/blocks.hpp"
#include "report/words/judgements.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"
#include "report/words/subject.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::produce {
namespace {

using plot::pt;
using plot::Tools;

constexpr std::string_view error_figure = "error", reversal_figure = "reversal", repeatability_figure = "repeatability",
                           environment_figure = "environment", polar_figure = "polar", tool_point_figure = "tool-point",
                           squareness_figure = "squareness", lines_figure = "measurement-lines";

const report::SeriesView& view_of(const report::Subject& subject, const std::string& id) {
    for (const auto& view : subject.views)
        if (view.series.id == id) return view;
    throw std::logic_error("no series called " + id);
}

/// The wide column with its margins round it: a figure stands in its file as it stands in the report.
struct Sheet {
    units::Paper left, right, top, width;
};

text::TextStyle title_style(const Tools& tools) { return plot::text_style(tools, {.type = layouts::TypeRole::Body}); }

std::vector<text::Line> title_lines(const Tools& tools, const std::string& words, units::Paper width) {
    return tools.shaper.paragraph(plot::pieces(tools, report::Text().strong(words), {.type = layouts::TypeRole::Body}), title_style(tools),
                                  width);
}

/// A title that turns a line moves what stands below it.
Sheet sheet_of(const Tools& tools, FigureWidth width, const std::string& title) {
    const units::Paper margin = tools.layout.size(layouts::SizeRole::FigureMargin);
    const auto& grid = tools.layout.grid();
    constexpr double titles = 40, phone = 240;  // 320 pixels of 1/96 inch, as style sheets count them
    const units::Paper column = width == FigureWidth::Narrow ? pt(phone) - margin * 2 : grid.wide_right - grid.left;
    const auto turned = static_cast<double>(title_lines(tools, title, column).size() - 1);
    return {margin, margin + column, margin + pt(titles) + title_style(tools).leading * turned, column + margin * 2};
}

/// The same with room for the brackets of a panel.
Sheet panel_sheet_of(Sheet sheet) {
    constexpr double brackets = 14;
    sheet.right -= pt(brackets);
    return sheet;
}

plot::DrawnFigure panel_of(const Tools& tools, const report::DeviationPlot& plot, const Sheet& sheet) {
    constexpr int most_ticks = 6;
    const plot::Ticks ticks = plot::shared_ticks({&plot}, most_ticks);
    const units::Paper room = std::max(tools.layout.size(layouts::SizeRole::TickLabelRoom), plot::marks::y_label_room(tools, ticks));
    const units::Paper left = sheet.left + room;
    return plot::panel_figure(tools, plot,
                              {.left = sheet.left,
                               .right = sheet.right,
                               .top = sheet.top,
                               .height = tools.layout.size(layouts::SizeRole::MainPlotHeight),
                               .plot_left = left,
                               .ticks = ticks,
                               .positions = plot::shared_positions({&plot}),
                               .marker_radius = plot::marks::marker_radius(tools.layout.size(layouts::SizeRole::MarkerRadius),
                                                                           sheet.right - left, plot.targets.size()),
                               .x_title = report::Text(plot.axis_name + " / " + std::string(plot.position_unit.symbol)),
                               .direct_labels = true});
}

plot::DrawnFigure drawn(const Tools& tools, const FigureName& which, const report::DeviationPlot& plot, bool positioning,
                        const Sheet& whole) {
    const Sheet sheet = positioning ? whole : panel_sheet_of(whole);
    if (which.name == reversal_figure || which.name == repeatability_figure) {
        const auto strip = which.name == reversal_figure ? plot::Strip::Reversal : plot::Strip::Repeatability;
        constexpr double of_main = 0.5;
        return plot::strip_figure(tools, plot, strip, sheet.left, sheet.right, sheet.top,
                                  tools.layout.size(layouts::SizeRole::MainPlotHeight) * of_main);
    }
    return positioning
               ? plot::error_figure(tools, plot, {},
                                    {sheet.left, sheet.top, sheet.right - sheet.left, tools.layout.size(layouts::SizeRole::MainPlotHeight)},
                                    plot::CurveWords::AtCurves)
               : panel_of(tools, plot, sheet);
}

/// Figures that the report builds with its own pages: round the circle, at the tool point, of two axes. Nothing: none of them.
std::optional<plot::DrawnFigure> page_figure(const Tools& tools, const report::Subject& subject, const FigureName& which,
                                             const Sheet& sheet) {
    const units::Paper width = sheet.right - sheet.left;
    if (which.name == polar_figure) {
        for (const auto& page : report::polar_openings(subject))
            if (page.plot.series_id == "polar-" + which.series)
                return plot::polar_figure(tools, page.plot, {sheet.left, sheet.top, width, width});
    }
    if (which.name == squareness_figure) {
        for (const auto& page : report::squareness_openings(subject))
            if (page.drawing && page.drawing->id == "squareness-" + which.series)
                return plot::square_figure(tools, *page.drawing,
                                           {sheet.left, sheet.top, width, tools.layout.size(layouts::SizeRole::MainPlotHeight)});
    }
    if (which.name == tool_point_figure) {
        for (const auto& block : report::tool_points(subject)) {
            const auto* panels = std::get_if<report::Panels>(&block);
            if (!panels) continue;
            for (const auto& panel : panels->panels)
                if (panel.plot.series_id == "tool-point-" + which.series) return panel_of(tools, panel.plot, panel_sheet_of(sheet));
        }
    }
    return std::nullopt;
}

void put_title(std::vector<frame::Item>& into, const Tools& tools, const std::string& words, frame::Point at, units::Paper width) {
    for (const text::Line& line : title_lines(tools, words, width)) {
        for (auto& run : text::placed(line, at)) into.emplace_back(std::move(run));
        at.y += title_style(tools).leading;
    }
}

plot::DrawnFigure environment_drawn(const report::Subject& subject, const Tools& tools, const Sheet& sheet) {
    const auto plot = report::environment_plot(subject.document, subject.evaluation, subject.units, report::style_of(subject));
    if (!plot) throw std::logic_error("no environment record to draw");
    constexpr double without_axis_title = 16;
    return plot::record_figure(tools, *plot, sheet.left, sheet.right, sheet.top - pt(without_axis_title),
                               plot::CurveWords::AtCurves)
        .drawn;
}

plot::DrawnFigure lines_drawn(const report::Subject& subject, const Tools& tools, const Sheet& sheet) {
    const auto block = report::measurement_lines(subject);
    if (!block) throw std::logic_error("no measurement lines to draw");
    constexpr double without_axis_title = 16;
    return plot::lines_figure(tools, block->drawing,
                              {sheet.left, sheet.top - pt(without_axis_title), sheet.right - sheet.left,
                               tools.layout.size(layouts::SizeRole::MainPlotHeight)});
}

/// A figure of the whole document.
plot::DrawnFigure document_figure(const report::Subject& subject, const Tools& tools, const std::string& name, const Sheet& sheet) {
    return name == lines_figure ? lines_drawn(subject, tools, sheet) : environment_drawn(subject, tools, sheet);
}

struct Foot {
    frame::Group group;
    units::Paper below;  ///< what lines after the first take
};

/// Notice left, over as many lines as it needs; fingerprint and, for a draft, that it is one, right.
Foot foot_of(const Drawing& drawing, const Inputs& inputs, const Sheet& sheet, units::Paper baseline) {
    const Tools tools{drawing.layout, drawing.shaper};
    const plot::Look grey{.colour = layouts::ColourRole::Grey};
    report::Text right("fingerprint " + short_form(inputs.fingerprint));
    if (drawing.document.job.status == document::Status::Draft) right.plain("   ").append(report::Text().strong("Draft"));
    constexpr double gap = 12;
    const units::Paper room = sheet.width - sheet.left * 2 - plot::width_of(tools, right, grey) - pt(gap);
    const text::TextStyle style = plot::text_style(tools, grey);
    std::vector<frame::Item> items;
    frame::Point at{sheet.left, baseline};
    for (const text::Line& line :
         tools.shaper.paragraph(plot::pieces(tools, report::Text(drawing.document.job.data_notice), grey), style, room)) {
        for (auto& run : text::placed(line, at)) items.emplace_back(std::move(run));
        at.y += style.leading;
    }
    plot::put(items, tools, right, grey, {sheet.width - sheet.left, baseline}, plot::Align::Right);
    return {plot::grouped(frame::Role::Paragraph, std::move(items)), std::max(units::Paper{}, at.y - style.leading - baseline)};
}

/// A figure with its title above and the foot below.
frame::Frame sheet_with(const Drawing& drawing, const FigureName& which, const Inputs& inputs, plot::DrawnFigure made,
                        const std::string& axis_title, const Sheet& sheet) {
    const Tools tools{drawing.layout, drawing.shaper};
    frame::Frame frame{
        .width = sheet.width, .height = made.bottom + tools.layout.size(layouts::SizeRole::FigureMargin) * 2, .label = "", .items = {}};
    std::vector<frame::Item> title;
    put_title(title, tools, which.title, {sheet.left, tools.layout.size(layouts::SizeRole::FigureMargin) + pt(8)},
              sheet.width - sheet.left * 2);
    if (!axis_title.empty()) plot::put(title, tools, axis_title, {.colour = layouts::ColourRole::Grey}, {sheet.left, sheet.top - pt(12)});
    frame.items.emplace_back(plot::grouped(frame::Role::Heading1, std::move(title)));
    frame.items.emplace_back(std::move(made.group));
    Foot foot = foot_of(drawing, inputs, sheet, frame.height - tools.layout.size(layouts::SizeRole::FigureMargin) / 2);
    frame.height += foot.below;
    frame.items.emplace_back(std::move(foot.group));
    return frame;
}

}  // namespace

std::vector<FigureName> figure_names(const document::Document& document, const evaluate::Evaluation& evaluation) {
    std::vector<FigureName> names;
    for (const auto& series : document.series) {
        const auto* evaluated = evaluate::find_series(evaluation, series.id);
        if (!evaluated) continue;
        const auto any = [&](auto has) { return std::ranges::any_of(evaluated->targets, has); };
        if (!series.trace && !any([](const auto& target) { return target.trace_mean().has_value(); })) continue;
        const std::string title = report::quantity_title(document, series.error) + report::state_suffix(series.state);
        names.push_back({series.id, std::string(error_figure), title});
        if (any([](const auto& target) { return target.reversal.has_value(); }))
            names.push_back({series.id, std::string(reversal_figure), title + ", reversal"});
        if (any([](const auto& target) { return target.one_way.positive.R || target.one_way.negative.R; }))
            names.push_back({series.id, std::string(repeatability_figure), title + ", repeatability"});
        if (report::goes_round(*evaluated)) names.push_back({series.id, std::string(polar_figure), title + ", polar plot"});
        const auto& moved = evaluated->at_tool_point;
        if (moved && moved->largest && !moved->from.empty())
            names.push_back(
                {series.id, std::string(tool_point_figure), title + ", at the functional point"});
        for (const auto& squareness : evaluation.squareness)
            if (squareness.series[0] == series.id && evaluate::value_of(squareness.value))
                names.push_back({series.id, std::string(squareness_figure), report::squareness_name(squareness.axes)});
    }
    if (const auto title = report::measurement_lines_title(document)) names.push_back({"", std::string(lines_figure), *title});
    if (report::environment_plot(document, evaluation, {}, {})) names.push_back({"", std::string(environment_figure), "Environment"});
    return names;
}

namespace {

frame::Frame figure_with(const Drawing& drawing, const report::Subject& subject, const FigureName& which, FigureWidth width,
                         const Inputs& inputs) {
    const Tools tools{drawing.layout, drawing.shaper};
    const Sheet sheet = sheet_of(tools, width, which.title);
    if (which.series.empty())
        return sheet_with(drawing, which, inputs, document_figure(subject, tools, which.name, sheet), {}, sheet);
    const report::SeriesView& view = view_of(subject, which.series);
    const report::DeviationPlot plot = report::judged_plot(subject, view);
    const bool positioning = view.evaluation.kind == evaluate::SeriesKind::Positioning;
    if (auto of_page = page_figure(tools, subject, which, sheet))
        return sheet_with(drawing, which, inputs, std::move(*of_page),
                          which.name == tool_point_figure ? "Deviation, over as measured / " + std::string(view.shown.unit.symbol) : "",
                          sheet);
    // Strips and positioning figures title their own axis.
    const std::string axis_title = !positioning && which.name == error_figure ? "Deviation / " + std::string(plot.unit.symbol) : "";
    return sheet_with(drawing, which, inputs, drawn(tools, which, plot, positioning, sheet), axis_title, sheet);
}

frame::Frame drawn_figure(const Drawing& drawing, const report::Subject& subject, const FigureName& which, FigureWidth width,
                          const Inputs& inputs) {
    return or_unset_texts(drawing.document, drawing.layout, drawing.shaper,
                          [&] { return figure_with(drawing, subject, which, width, inputs); });
}

report::Subject subject_of(const Drawing& drawing) { return {drawing.document, drawing.evaluation, drawing.layout}; }

}  // namespace

frame::Frame figure(const Drawing& drawing, const FigureName& which, FigureWidth width) {
    return drawn_figure(drawing, subject_of(drawing), which, width, inputs_of(drawing, {which.series, which.name}));
}

std::string figure_bytes(const Drawing& drawing, const FigureName& which, const FigureForm& form) {
    return FigureMaker(drawing).bytes(which, form);
}

FigureMaker::FigureMaker(const Drawing& drawing) : drawing_(drawing), inputs_(drawing), subject_(subject_of(drawing)) {}

/// All but the list of inputs are the same in each.
output::EmbeddedFiles FigureMaker::files(const Inputs& inputs, const std::string& created) {
    if (files_.empty()) return files_ = output::embedded(attachments_of(drawing_, inputs), created);
    output::EmbeddedFiles all = files_;
    const auto list = std::ranges::find(all, kept::inputs, [](const auto& file) -> const std::string& { return file->name; });
    *list = output::embedded({list_attachment(inputs)}, created).front();
    return all;
}

std::string FigureMaker::bytes(const FigureName& which, const FigureForm& form) {
    const Inputs inputs = inputs_.of({which.series, which.name});
    const FigureWidth width = form.format == FigureFormat::Pdf ? FigureWidth::Column : form.width;
    const frame::Frame frame = drawn_figure(drawing_, subject_, which, width, inputs);
    output::Metadata metadata = metadata_of(drawing_, inputs, which.title, drawing_.document.job.number);
    switch (form.format) {
        case FigureFormat::Svg:
            metadata.shown_data = shown_data(drawing_, inputs, {which.series, which.name});
            return output::svg(frame, metadata, drawing_.shaper);
        case FigureFormat::Pdf:
            return output::pdf_with({frame}, metadata, drawing_.shaper, [&] { return files(inputs, metadata.created); });
        case FigureFormat::Png: return output::png(frame, drawing_.shaper, form.dots_per_inch);
    }
    throw std::logic_error("a figure format without a writer");
}

}  // namespace wayfolio::produce
