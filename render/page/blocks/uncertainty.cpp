#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/blocks/uncertainty_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

// Columns of the rows, from the left edge of the page's text.
constexpr double result_name_room = 82, bar_left = 84, bar_right = 180, split_left = 183, split_right = 205;
constexpr double u_at = 232, freedom_at = 255.5, k_at = 276.5, coverage_at = 301, U_at = 327, unit_at = 329;
constexpr double figure_above = 12, bar_above_baseline = 2.7, below_notes = 20;

constexpr double usual_pitch = 20, close_pitch = 12.5, closest_pitch = 12;  // of the rows

/// How far columns move to the left where numbers have more digits than their columns hold.
struct GivenWay {
    Paper numbers;  ///< those left of U
    Paper bars;
};

GivenWay given_way(const Tools& tools, const report::Uncertainty& block) {
    constexpr double apart = 4;
    Paper u{}, U{};
    for (const report::UncertaintyRow& row : block.rows) {
        u = std::max(u, plot::width_of(tools, row.u, {}));
        U = std::max(U, plot::width_of(tools, row.U, {}));
    }
    const Paper numbers = std::max(Paper{}, U - pt(U_at - coverage_at - apart));
    return {numbers, numbers + std::max(Paper{}, u - pt(u_at - split_right - apart))};
}

std::vector<Column> row_columns(const layouts::PaperGrid& grid, const GivenWay& way) {
    const auto number = [&](double x) { return Column{grid.left + pt(x) - way.numbers, ColumnAlign::Right}; };
    return {{grid.left}, {grid.left + pt(split_left) - way.bars}, number(u_at), number(freedom_at), number(k_at), number(coverage_at),
            {grid.left + pt(U_at), ColumnAlign::Right}, {grid.left + pt(unit_at)}, {grid.margin_left + pt(symbol_room)}};
}

/// The rows of one page: their table, and the figure of their bars.
struct RowsPart {
    Table table;
    std::vector<Item> bars{};
    std::string words{};
    Paper top{};
};

class RowsFlow {
public:
    RowsFlow(Composer& composer, const report::Uncertainty& block, Paper caption_at)
        : composer_(composer), block_(block), pitch_(row_pitch()), caption_at_(caption_at),
          way_(given_way(composer.tools(), block)) {}

    void place() {
        begin();
        for (std::size_t i = 0; i < block_.rows.size(); ++i) {
            const report::UncertaintyRow& row = block_.rows[i];
            const FlowingText name = name_of(row);
            const Paper more = further_lines(name);
            const bool two_left = i + 2 == block_.rows.size();
            if (!composer_.fits(more + (two_left ? pitch_ + further_lines(name_of(block_.rows[i + 1])) : Paper{}))) {
                close();
                turn_page(composer_, block_.opening.label);
                begin();
            }
            add_row(row, name);
            composer_.y += more + pitch_;
            if (i + 1 < block_.rows.size()) divide();
        }
        close();
    }

private:
    /// So many rows still leave room for the contributors on their page; and rows that their page holds closer together are not parted.
    [[nodiscard]] Paper row_pitch() const {
        constexpr std::size_t few = 11, many = 18;
        if (block_.rows.size() > many) return pt(closest_pitch);
        if (block_.rows.size() > few) return pt(close_pitch);
        const auto fits_at = [&](double pitch) { return composer_.fits(first_row_below(pt(pitch)) + rows_height(pt(pitch))); };
        return pt(!fits_at(usual_pitch) && fits_at(close_pitch) ? close_pitch : usual_pitch);
    }

    static Paper first_row_below(Paper pitch) { return pt(rule_below_row) + pitch / 2 + pt(bar_above_baseline); }
    /// From the first baseline to the last.
    [[nodiscard]] Paper rows_height(Paper pitch) const {
        Paper height = pitch * static_cast<double>(block_.rows.size() - 1);
        for (const report::UncertaintyRow& row : block_.rows) height += further_lines(name_of(row));
        return height;
    }

    static Look look_of(const report::UncertaintyRow& row) {
        return {.type = TypeRole::Small, .colour = row.has_limit ? ColourRole::Ink : ColourRole::Grey};
    }

    [[nodiscard]] FlowingText name_of(const report::UncertaintyRow& row) const {
        return {composer_.tools(), row.name, look_of(row), pt(result_name_room)};
    }
    static Paper further_lines(const FlowingText& name) {
        return name.leading() * static_cast<double>(std::max<std::size_t>(name.size(), 1) - 1);
    }

    [[nodiscard]] plot::UncertaintyPlace bars_at(Paper baseline) const {
        const Paper left = composer_.grid().left;
        return {left + pt(bar_left), left + pt(bar_right) - way_.bars, left + pt(split_left) - way_.bars,
                left + pt(split_right) - way_.bars, baseline - pt(bar_above_baseline)};
    }

    void begin() {
        const Tools& tools = composer_.tools();
        const auto& grid = composer_.grid();
        part_.emplace(RowsPart{.table = Table(tools, row_columns(grid, way_)), .top = composer_.y});
        part_->table.begin("uncertainties");
        auto heads = row_columns(grid, way_);
        heads.back().x = grid.margin_left;
        Table head(tools, heads);
        const std::vector<Text> words{Text("Quantity, parameter"), report::marked("*U* split"), Text().symbol("u"), Text().symbol("ν"),
                                      Text().symbol("k"), Text("cov."), Text().symbol("U"), Text("unit"), Text("Verdict, margin")};
        std::vector<Group> cells;
        for (std::size_t i = 0; i < words.size(); ++i) cells.push_back(head.head_cell(words[i], i, composer_.y));
        part_->table.add_head(std::move(cells));
        const Look grey{.colour = ColourRole::Grey};
        const auto place = bars_at(composer_.y);
        plot::put(part_->bars, tools, "0", grey, {place.left, composer_.y}, Align::Centre);
        plot::put(part_->bars, tools, "limit", grey, {plot::uncertainty_limit(place), composer_.y}, Align::Centre);
        composer_.add(rule(tools, grid.left, grid.margin_right, composer_.y + pt(rule_below_row)));
        composer_.y += first_row_below(pitch_);
    }

    void add_row(const report::UncertaintyRow& row, const FlowingText& name) {
        const Tools& tools = composer_.tools();
        const Paper at = composer_.y;
        Group head = name.part(0, name.size(), {composer_.grid().left, at}, frame::Role::HeadCell).group;
        head.scope = frame::Scope::Row;
        std::vector<Group> cells{std::move(head)};
        const std::vector<Text> words{row.not_divided, row.u, row.freedom, row.k, row.coverage, row.U, Text().quiet(row.unit),
                                      row.verdict.short_form};
        for (std::size_t i = 0; i < words.size(); ++i) cells.push_back(part_->table.data_cell(words[i], i + 1, at, look_of(row)));
        part_->table.add_row(std::move(cells));
        part_->bars.emplace_back(plot::uncertainty_bar(tools, row, bars_at(at)));
        part_->words += (part_->words.empty() ? "" : " ") + row.words;
        composer_.add(artifact({plot::marks::verdict_symbol(tools, row.verdict.standing, composer_.grid().margin_left, at)}));
    }

    /// The line between two rows.
    void divide() const {
        const Paper at = composer_.y - pitch_ / 2 - pt(bar_above_baseline);
        const auto& grid = composer_.grid();
        frame::Path pale = plot::line(composer_.tools(), PenRole::TableRule, {grid.left, at}, {grid.margin_right, at});
        pale.stroke->colour = composer_.tools().layout.colour(ColourRole::PartListed);
        composer_.add(artifact({std::move(pale)}));
    }

    void close() {
        composer_.add(rule(composer_.tools(), composer_.grid().left, composer_.grid().margin_right,
                           composer_.y - pitch_ / 2 - pt(bar_above_baseline)));
        Group figure = plot::grouped(frame::Role::Figure, std::move(part_->bars));
        figure.id = "uncertainty";
        figure.alternative = part_->words;
        figure.box = Rect{composer_.grid().left + pt(bar_left), part_->top - pt(figure_above), pt(split_right - bar_left),
                          composer_.y - pitch_ - part_->top + pt(2 * figure_above)};
        if (!std::exchange(captioned_, true))
            margin_caption(composer_, figure, block_.figure_number, block_.caption, caption_at_);
        composer_.add(part_->table.take());
        composer_.add(std::move(figure));
        composer_.y += pt(row_below_rule) - pitch_ / 2 - pt(bar_above_baseline);
    }

    Composer& composer_;
    const report::Uncertainty& block_;
    Paper pitch_, caption_at_;
    GivenWay way_;
    std::optional<RowsPart> part_;
    bool captioned_ = false;
};

void need(Composer& composer, Paper height, const std::string& label) {
    if (composer.fits(height)) return;
    turn_page(composer, label);
}

void place_heading(Composer& composer, const std::string& words) {
    composer.add(text_line(composer.tools(), Text().strong(words), {.type = TypeRole::Body}, {composer.grid().left, composer.y},
                           Align::Left, frame::Role::Heading2));
    composer.y += pt(heading_below);
}

void place_decision(Composer& composer, const report::Uncertainty& block) {
    const auto& grid = composer.grid();
    constexpr double verdict_at = 14, decision_below = 16;
    need(composer, pt(heading_below) + plot::decision_height(), block.opening.label);
    const Paper heading = composer.y;
    place_heading(composer, block.rule_heading);
    const Paper top = composer.y - pt(plot::title_ascent);
    plot::DrawnFigure drawn = plot::decision_figure(composer.tools(), *block.decision, grid.left, grid.wide_right, top);
    composer.margin_free() = std::max(composer.margin_free(), heading - grid.baseline_step);
    std::vector<Text> lines = block.decision->margins;
    lines.emplace_back("Decisions use unrounded values; margins are printed limit less printed value.");
    margin_verdict(composer, block.decision->verdict, heading + pt(verdict_at), lines);
    composer.add(std::move(drawn.group));
    composer.y = drawn.bottom + pt(decision_below);
}

}  // namespace

void place(Composer& composer, const report::Uncertainty& block) {
    const Paper top = composer.y;
    place_opening(composer, block.opening);
    const std::string& label = block.opening.label;
    if (!block.rows.empty()) {
        RowsFlow(composer, block, top).place();
        composer.set_anchor(block.rows_anchor);
        place_small_notes(composer, block.rows_notes, label);
        composer.y += pt(below_notes);
    }
    for (const report::ContributorTable& table : block.contributors) place_contributors(composer, table, label);
    place_small_notes(composer, block.contributors_notes, label);
    if (!block.contributors_notes.empty()) composer.y += pt(below_notes);
    if (block.decision) place_decision(composer, block);
    place_outcomes(composer, block.outcomes, label);
    composer.y = composer.on_grid(composer.y);
    for (const report::Section& section : block.sections) place_section(composer, section, label);
}

}  // namespace wayfolio::page
