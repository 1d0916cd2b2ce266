#include "report/build.hpp"

#include "report/blocks/blocks.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "units/version.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// Numbers figures in the order they stand in the report.
class FigureNumbers {
public:
    std::string next() { return "Figure " + std::to_string(++last_); }

private:
    int last_ = 0;
};

/// A block of those that may have a figure gets its number where there is one.
template <class Made>
void add_numbered(std::vector<Block>& blocks, Made made, bool has_figure, FigureNumbers& numbers) {
    if (has_figure) made.figure_number = numbers.next();
    blocks.emplace_back(std::move(made));
}

using Ids = std::vector<std::string>;

bool is_among(const Ids& ids, const std::string& id) { return std::ranges::find(ids, id) != ids.end(); }

/// Series with an opening of their own.
std::vector<SeriesView> opened(const Subject& subject) {
    const Ids shown = shown_by_states(subject);
    std::vector<SeriesView> views;
    for (const SeriesView& view : subject.views)
        if (!is_among(shown, view.series.id)) views.push_back(view);
    return views;
}

/// The figure of a page that is drawn for a series goes by its id behind a word: "polar-x".
bool is_opened(const Subject& subject, const std::string& word, const std::string& figure) {
    return std::ranges::none_of(shown_by_states(subject), [&](const std::string& id) { return figure == word + "-" + id; });
}

void add_openings(std::vector<Block>& blocks, const Subject& subject, FigureNumbers& numbers) {
    for (const SeriesView& view : opened(subject)) {
        if (view.evaluation.kind != evaluate::SeriesKind::Positioning) continue;
        PositioningOpening made = positioning_opening(subject, view);
        const bool has_figure = !mean_curve_of(made.plot).empty();
        add_numbered(blocks, std::move(made), has_figure, numbers);
    }
}

/// Series of one kind, grouped by axis and state in the document's order, as many as one page shows.
std::vector<std::vector<SeriesView>> panel_groups(const Subject& subject, bool angles) {
    std::vector<SeriesView> drawn;
    for (const SeriesView& view : opened(subject)) {
        if (view.evaluation.kind != evaluate::SeriesKind::Positioning && (view.evaluation.kind == evaluate::SeriesKind::Angle) == angles)
            drawn.push_back(view);
    }
    return grouped(drawn, same_axis_and_state, most_panels);
}

void add_panels(std::vector<Block>& blocks, const Subject& subject, bool angles, FigureNumbers& numbers) {
    for (const auto& group : panel_groups(subject, angles)) {
        Panels made = panels(subject, group);
        const bool has_figure =
            std::ranges::any_of(made.panels, [](const Panel& panel) { return !mean_curve_of(panel.plot).empty(); });
        add_numbered(blocks, std::move(made), has_figure, numbers);
    }
}

void add_tool_points(std::vector<Block>& blocks, const Subject& subject, FigureNumbers& numbers) {
    for (Block& made : tool_points(subject)) {
        if (auto* drawn = std::get_if<Panels>(&made)) {
            if (!is_opened(subject, "tool-point", drawn->panels.front().plot.series_id)) continue;
            drawn->figure_number = numbers.next();
        }
        blocks.push_back(std::move(made));
    }
}

void add_readings(std::vector<Block>& blocks, const Subject& subject) {
    for (const SeriesView& view : subject.views) {
        const bool read = !view.series.runs.empty() || view.evaluation.source == evaluate::Source::Stated;
        if (read && !view.evaluation.targets.empty()) blocks.emplace_back(readings(subject, view));
    }
}

void add_unless_empty(std::vector<Block>& blocks, Sections made) {
    if (!made.sections.empty()) blocks.emplace_back(std::move(made));
}

void add_block(std::vector<Block>& blocks, const std::string& name, const Subject& subject, FigureNumbers& numbers) {
    if (name == "answer") blocks.emplace_back(answer(subject));
    if (name == "openings") add_openings(blocks, subject, numbers);
    if (name == "polar")
        for (PolarOpening& made : polar_openings(subject))
            if (is_opened(subject, "polar", made.plot.series_id)) add_numbered(blocks, std::move(made), true, numbers);
    if (name == "straightness") add_panels(blocks, subject, false, numbers);
    if (name == "angles") add_panels(blocks, subject, true, numbers);
    if (name == "tool-point") add_tool_points(blocks, subject, numbers);
    if (name == "squareness")
        for (SquarenessOpening& made : squareness_openings(subject)) add_numbered(blocks, made, made.drawing.has_value(), numbers);
    if (name == "states")
        if (const auto made = states(subject)) add_numbered(blocks, *made, true, numbers);
    if (name == "compensation")
        for (Compensation& made : compensations(subject)) add_numbered(blocks, made, made.predicted.has_value(), numbers);
    if (name == "uncertainty")
        if (const auto made = uncertainty(subject)) add_numbered(blocks, *made, !made->rows.empty(), numbers);
    if (name == "environment")
        if (const auto made = environment(subject)) add_numbered(blocks, *made, made->record.has_value(), numbers);
    if (name == "measurement-lines")
        if (const auto made = measurement_lines(subject)) add_numbered(blocks, *made, true, numbers);
    if (name == "hints") add_unless_empty(blocks, hints(subject));
    if (name == "readings") add_readings(blocks, subject);
    if (name == "conditions") add_unless_empty(blocks, conditions(subject));
    if (name == "facts") add_unless_empty(blocks, facts(subject));
    if (name == "house") add_unless_empty(blocks, house(subject));
    if (name == "remarks") blocks.emplace_back(remarks(subject));
    if (name == "closing") blocks.emplace_back(closing(subject));
}

RunningText running_text(const Subject& subject) {
    const document::Document& document = subject.document;
    const auto& job = document.job;
    RunningText text;
    text.first_line = subject.layout.house.first_line;
    text.head_left = "Calibration report" + (job.number.empty() ? std::string() : " " + job.number) + revision_suffix(job);
    text.foot_left = "wayfolio " + std::string(version());
    text.foot_right = job.data_notice;
    if (job.status == document::Status::Draft) text.draft = "Draft";
    text.logo = document::logo_picture(document);
    return text;
}

}  // namespace

Model build(const Subject& subject) {
    const auto& job = subject.document.job;
    Model model;
    model.running = running_text(subject);
    model.title = job.title.empty() ? model.running.head_left : job.title;
    model.author = job.laboratory ? job.laboratory->name : "";
    model.subject = model.running.head_left;
    model.created = !job.issued.empty() ? job.issued : job.measured_to;
    FigureNumbers numbers;
    for (const std::string& name : subject.layout.blocks) add_block(model.blocks, name, subject, numbers);
    const auto* first = model.blocks.empty() ? nullptr : std::get_if<Answer>(&model.blocks.front());
    if (first && first->below_issuer) model.running.issuer = issuer_of(subject.document);
    return model;
}

}  // namespace wayfolio::report
