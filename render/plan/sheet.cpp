#include "plan/sheet.hpp"

#include "output/output.hpp"
#include "plan/sheet_page.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::plan {
namespace {

constexpr std::string_view document_name = "wayfolio-plan.json";

std::string title_of(const Planned& planned) {
    const std::string axis = planned.series.front().error.substr(2);
    return fmt::format("Plan of measurement: axis {}{}", axis, planned.machine.empty() ? "" : " of " + planned.machine);
}

std::string_view standing_words(const evaluate::Condition& condition) {
    return condition.holds ? *condition.holds ? "Met: " : "Not met: " : "Open: ";
}

void tell_plan(SheetPage& page, const Planned& planned) {
    page.heading(title_of(planned));
    for (const std::string& line : plan_lines(planned)) page.paragraph(line + ".");
    page.gap();
    page.subheading("Series");
    for (const PlannedSeries& series : planned.series)
        page.paragraph(fmt::format("{}: {} {}{}", series.id, series.error, series.words, series.state.empty() ? "" : ", " + series.state));
    page.gap();
    page.subheading("Conditions of the standard, once every reading is taken");
    for (const evaluate::Condition& condition : planned.conditions)
        page.paragraph(report::Text().strong(std::string(standing_words(condition))).plain(condition.text));
    page.gap();
    page.subheading("To be written down on the day");
    for (const char* field : {"Machine, serial number, condition", "Instrument, serial number, certificate", "Warm-up: strokes, minutes",
                              "Beam or reference aligned: offset at both ends", "Measured by, day"})
        page.field(field);
}

/// A column of the table: "1 +", then "1 -".
std::vector<std::string> run_heads(const Planned& planned) {
    std::vector<std::string> heads;
    const bool in_turn = planned.order == document::RunOrder::Alternating;
    for (std::size_t place = 0; place < 2 * planned.runs; ++place) {
        const bool negative = in_turn ? place % 2 == 1 : place >= planned.runs;
        const std::size_t run = in_turn ? place / 2 : place % planned.runs;
        heads.push_back(fmt::format("{} {}", run + 1, negative ? "\u2212" : "+"));
    }
    return heads;
}

void fill_series(std::vector<SheetPage>& pages, const SheetPage::Paper& paper, const Planned& planned, const PlannedSeries& series) {
    constexpr std::size_t most_columns = 10;
    constexpr int most_decimals = 3;
    const std::vector<std::string> heads = run_heads(planned);
    int decimals = 0;
    for (const double target : planned.targets) decimals = std::max(decimals, units::decimals_needed(target, most_decimals));
    for (std::size_t column = 0; column < heads.size(); column += most_columns)
        for (std::size_t row = 0; row < planned.targets.size();) {
            SheetPage& page = pages.emplace_back(paper);
            page.heading(fmt::format("{}: {}{}", series.error, series.words, series.state.empty() ? "" : ", " + series.state));
            page.paragraph(
                fmt::format("Readings in {}; positive runs (+) from the top down, negative runs (\u2212) from the bottom up. "
                            "A reading that is missing stays empty.",
                            series.unit == "um" ? "\u00b5m" : series.unit));
            const std::size_t last_column = std::min(heads.size(), column + most_columns);
            SheetTable table{
                .first_head = fmt::format("Target / {}", planned.range.unit.symbol),
                .heads = {heads.begin() + static_cast<std::ptrdiff_t>(column), heads.begin() + static_cast<std::ptrdiff_t>(last_column)}};
            const std::size_t rows = std::min(page.rows_left(), planned.targets.size() - row);
            for (std::size_t i = row; i < row + rows; ++i)
                table.rows.push_back({std::to_string(i + 1), units::number(planned.targets[i], decimals)});
            if (row + rows == planned.targets.size()) table.fields = {{"", "Begun"}, {"", "Air / °C"}, {"", "Machine / °C"}};
            page.table(table);
            row += rows;
        }
}

}  // namespace

std::vector<frame::Frame> sheet_pages(const Planned& planned, const layouts::Layout& layout, const text::Shaper& shaper) {
    const SheetPage::Paper paper{{layout, shaper}};
    std::vector<SheetPage> pages;
    tell_plan(pages.emplace_back(paper), planned);
    for (const PlannedSeries& series : planned.series) fill_series(pages, paper, planned, series);
    std::vector<frame::Frame> frames;
    for (std::size_t page = 0; page < pages.size(); ++page) frames.push_back(pages[page].take(page + 1, pages.size(), title_of(planned)));
    return frames;
}

std::string sheet_pdf(const Planned& planned, const layouts::Layout& layout, const text::Shaper& shaper) {
    const output::Metadata metadata{.title = title_of(planned), .author = "", .subject = plan_lines(planned).front(), .created = ""};
    return output::pdf(sheet_pages(planned, layout, shaper), metadata, shaper,
                       {{.name = std::string(document_name),
                         .mime = "application/json",
                         .bytes = planned.document,
                         .relationship = output::Relationship::Source,
                         .description = "The plan as a result document without readings"}});
}

}  // namespace wayfolio::plan
