#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {

namespace {

/// What the symbol of a verdict is drawn as, and where.
enum class SymbolKind { RingShort, RingClose, DiscShort, HalfOn, DiscClose, DiscPast };

bool drawn_as_ring(SymbolKind kind) { return kind == SymbolKind::RingShort || kind == SymbolKind::RingClose; }
bool drawn_as_disc(SymbolKind kind) {
    return kind == SymbolKind::DiscShort || kind == SymbolKind::DiscClose || kind == SymbolKind::DiscPast;
}
/// Less than U away: nearer, with a whisker across the limit.
bool is_close(SymbolKind kind) { return kind != SymbolKind::RingShort && kind != SymbolKind::DiscPast && kind != SymbolKind::HalfOn; }

struct JudgedCase {
    std::string rule;
    double limit;
    SymbolKind symbol;
    std::vector<int> edges;  ///< sides of the limit with a guard band: -1 short of it, 1 past it
    double guard_of_U = 1;
};

/// Every outcome of every rule for A = 6.5 µm ± 0.8 µm. The guard band of ISO 14253-1 is 1.65 u = 0.825 U at k = 2.
const std::vector<JudgedCase> cases{{"simple", 9, SymbolKind::RingShort, {}},
                                    {"simple", 6.2, SymbolKind::DiscPast, {}},
                                    {"guard-band", 9, SymbolKind::RingShort, {-1}},
                                    {"guard-band", 7, SymbolKind::DiscShort, {-1}},
                                    {"guard-band", 5, SymbolKind::DiscPast, {-1}},
                                    {"guard-band-both-sides", 9, SymbolKind::RingShort, {-1, 1}},
                                    {"guard-band-both-sides", 6.2, SymbolKind::HalfOn, {-1, 1}},
                                    {"guard-band-both-sides", 5, SymbolKind::DiscPast, {-1, 1}},
                                    {"iso-14253-1", 9, SymbolKind::RingShort, {-1, 1}, 0.825},
                                    {"iso-14253-1", 6.2, SymbolKind::HalfOn, {-1, 1}, 0.825},
                                    {"iso-14253-1", 5, SymbolKind::DiscPast, {-1, 1}, 0.825},
                                    {"non-binary", 9, SymbolKind::RingShort, {-1, 1}},
                                    {"non-binary", 7, SymbolKind::RingClose, {-1, 1}},
                                    {"non-binary", 6.2, SymbolKind::DiscClose, {-1, 1}},
                                    {"non-binary", 5, SymbolKind::DiscPast, {-1, 1}}};

double middle_of(const frame::Path& path) {
    const frame::Rect box = *frame::bounds(path);
    return (box.left + box.width / 2).in(units::point);
}

/// Paths that lie wholly within a column of the page.
std::vector<frame::Path> within(const std::vector<frame::Path>& paths, double left, double right) {
    std::vector<frame::Path> found;
    std::ranges::copy_if(paths, std::back_inserter(found), [&](const frame::Path& path) {
        const auto box = frame::bounds(path);
        return box && box->left.in(units::point) >= left && box->right().in(units::point) <= right;
    });
    return found;
}

std::vector<frame::Path> with_pen(const std::vector<frame::Path>& paths, const layouts::Pen& pen) {
    std::vector<frame::Path> found;
    std::ranges::copy_if(paths, std::back_inserter(found), [&](const frame::Path& path) { return has_pen(path, pen); });
    return found;
}

/// The marks of a verdict: a ring (paper within ink), a disc, the right half of a disc.
struct Marks {
    std::vector<frame::Path> rings, discs, halves;

    Marks(const std::vector<frame::Path>& paths, const layouts::Layout& layout) {
        for (const frame::Path& path : paths) {
            if (is_disc(path))
                discs.push_back(path);
            else if (path.fill == colour_called(layout, "paper") && has_pen(path, pen_called(layout, "symbol_ring")))
                rings.push_back(path);
            else if (path.fill == colour_called(layout, "ink") && !path.stroke)
                halves.push_back(path);
        }
    }
};

/// Where the head of the gauges says 0: they end with the wide column.
double zero_of_gauges(const frame::Frame& page, const layouts::Layout& layout) {
    const double left = (layout.grid().wide_right - size_called(layout, "gauge_width")).in(units::point);
    const auto runs = runs_in(page.items);
    REQUIRE(std::ranges::any_of(
        runs, [&](const frame::GlyphRun& run) { return run.text == "0" && std::abs(x_of(run.origin) - left) < hairline; }));
    return left;
}

/// A ring for a value that is inside, a disc for one that is not, a ring with its right half filled for one undecided: nothing else.
void check_kind(const Marks& marks, SymbolKind symbol) {
    CHECK(marks.rings.size() == (drawn_as_ring(symbol) || symbol == SymbolKind::HalfOn ? 1U : 0U));
    CHECK(marks.discs.size() == (drawn_as_disc(symbol) ? 1U : 0U));
    CHECK(marks.halves.size() == (symbol == SymbolKind::HalfOn ? 1U : 0U));
    for (const frame::Path& half : marks.halves)
        CHECK(frame::bounds(half)->left.in(units::point) == Approx(middle_of(marks.rings.at(0))));
}

/// The picture of a rule on the page of budgets, with what it is drawn of.
struct RulePicture {
    DrawnDocument drawn;
    double limit, value, expanded;
    std::vector<frame::Path> paths, uprights;  ///< uprights: the limit's line first, then the edges of the guard band
    std::vector<frame::Point> bar;

    explicit RulePicture(const JudgedCase& one) : drawn(small::judged(one.rule.c_str(), one.limit)), limit(one.limit) {
        const evaluate::Decision& decision = drawn.evaluation.decisions.at(0);
        value = decision.value->in(units::micrometre);
        expanded = decision.expanded->in(units::micrometre);
        paths = paths_in(group_of(drawn.pages("uncertainty").at(0).items, "decision").items);
        uprights = with_pen(paths, pen_called(drawn.layout, "symbol_limit"));
        const auto height = [](const frame::Path& path) { return frame::bounds(path)->height.in(units::point); };
        constexpr double of_symbols = 11.5;  // those of the zones' symbols are lower
        std::erase_if(uprights, [&](const frame::Path& path) { return height(path) < of_symbols; });
        std::ranges::sort(uprights, std::ranges::greater{}, height);
        // The symbol of a value that U does not take past the limit has a short bar of its own.
        auto bars = with_pen(paths, pen_called(drawn.layout, "uncertainty_bar"));
        std::ranges::sort(bars, std::ranges::greater{},
                          [](const frame::Path& path) { return frame::bounds(path)->width.in(units::point); });
        REQUIRE_FALSE(bars.empty());
        REQUIRE_FALSE(uprights.empty());
        bar = points_of(bars[0]);
    }
    /// The bar is 2 U long.
    [[nodiscard]] ReadScale scale() const {
        const double at_limit = middle_of(uprights[0]), per_unit = (x_of(bar[1]) - x_of(bar[0])) / (2 * expanded);
        return {at_limit, limit, at_limit + per_unit, limit + 1};
    }
    [[nodiscard]] std::pair<double, double> hatched() const {
        double from = limit, to = limit;
        for (const frame::Path& path : with_pen(paths, pen_called(drawn.layout, "band_hatch"))) {
            if (points_of(path).size() == 2) continue;  // the line of the value has the same pen
            const frame::Rect box = *frame::bounds(path);
            from = std::min(from, scale().at(box.left.in(units::point)));
            to = std::max(to, scale().at(box.right().in(units::point)));
        }
        return {from, to};
    }
    [[nodiscard]] Marks on_the_line() const {
        std::vector<frame::Path> level;
        std::ranges::copy_if(paths, std::back_inserter(level), [&](const frame::Path& path) {
            const auto box = frame::bounds(path);
            return box && std::abs((box->top + box->height / 2).in(units::point) - y_of(bar[0])) < 0.01;
        });
        return {level, drawn.layout};
    }
};

}  // namespace

TEST_CASE("the symbol of a verdict stands on the value's side of the limit, on it for Undecided, with a whisker where U is more",
          "[pictures]") {
    for (const JudgedCase& one : cases) {
        CAPTURE(one.rule, one.limit);
        DrawnDocument drawn(small::judged(one.rule.c_str(), one.limit));
        const auto pages = drawn.pages("answer");
        const double left = drawn.layout.grid().margin_left.in(units::point);
        constexpr double cell = 14;
        const auto paths = within(paths_in(pages.at(0).items), left - 1, left + cell + 1);
        const auto ticks = with_pen(paths, pen_called(drawn.layout, "symbol_limit"));
        REQUIRE_FALSE(ticks.empty());
        const double limit = middle_of(ticks[0]);
        const Marks marks(paths, drawn.layout);
        check_kind(marks, one.symbol);
        for (const frame::Path& ring : marks.rings) {
            if (drawn_as_ring(one.symbol))
                CHECK(frame::bounds(ring)->right().in(units::point) < limit);
            else
                CHECK(middle_of(ring) == Approx(limit));
        }
        for (const frame::Path& disc : marks.discs) {
            if (one.symbol == SymbolKind::DiscShort)
                CHECK(frame::bounds(disc)->right().in(units::point) < limit);
            else
                CHECK(frame::bounds(disc)->left.in(units::point) > limit);
        }
        const auto whiskers = with_pen(paths, pen_called(drawn.layout, "uncertainty_bar"));
        REQUIRE(whiskers.size() == (is_close(one.symbol) ? 1U : 0U));
        for (const frame::Path& whisker : whiskers) {
            CHECK(frame::bounds(whisker)->left.in(units::point) < limit - 2);
            CHECK(frame::bounds(whisker)->right().in(units::point) > limit + 2);
        }
        // The limit's tick is broken where the half disc sits on it.
        CHECK(ticks.size() == (one.symbol == SymbolKind::HalfOn ? 2U : 1U));
    }
}

TEST_CASE("what is not evaluated has the tick of its limit and nothing beside it", "[pictures]") {
    DrawnDocument drawn(small::judged("guard-band", 9, 0));
    const auto pages = drawn.pages("answer");
    const double left = drawn.layout.grid().margin_left.in(units::point);
    const auto paths = within(paths_in(pages.at(0).items), left - 1, left + 15);
    CHECK(paths.size() == 1);
    CHECK(has_pen(paths.at(0), pen_called(drawn.layout, "symbol_limit")));
}

TEST_CASE("the dot of a gauge stands at value / limit, its bar reaches to U on either side, and its mark is that of the verdict",
          "[pictures]") {
    for (const JudgedCase& one : cases) {
        CAPTURE(one.rule, one.limit);
        DrawnDocument drawn(small::judged(one.rule.c_str(), one.limit));
        const auto pages = drawn.pages("answer");
        const evaluate::Decision& decision = drawn.evaluation.decisions.at(0);
        // The head names both ends of the scale: "0" begins at its left end, "limit" is centred on the limit.
        const auto limit = run_saying(pages.at(0).items, "limit");
        const double at_zero = zero_of_gauges(pages.at(0), drawn.layout),
                     at_limit = x_of(limit.origin) + limit.advance.in(units::point) / 2;
        const ReadScale scale(at_zero, 0, at_limit, 1);
        const auto paths =
            within(paths_in(pages.at(0).items), at_zero - 3, at_zero + size_called(drawn.layout, "gauge_width").in(units::point) + 3);
        const Marks marks(paths, drawn.layout);
        check_kind(marks, one.symbol);
        const double value = decision.value->in(units::micrometre), expanded = decision.expanded->in(units::micrometre);
        const frame::Path& dot = drawn_as_disc(one.symbol) ? marks.discs.at(0) : marks.rings.at(0);
        CHECK(scale.at(middle_of(dot)) == Approx(value / one.limit).margin(hairline));
        // The symbol of a value that U does not take past the limit has a short bar of its own.
        auto bars = with_pen(paths, pen_called(drawn.layout, "uncertainty_bar"));
        std::ranges::sort(bars, std::ranges::greater{},
                          [](const frame::Path& path) { return frame::bounds(path)->width.in(units::point); });
        REQUIRE_FALSE(bars.empty());
        CHECK(scale.at(x_of(points_of(bars[0])[0])) == Approx((value - expanded) / one.limit).margin(hairline));
        CHECK(scale.at(x_of(points_of(bars[0])[1])) == Approx(std::min(1.5, (value + expanded) / one.limit)).margin(hairline));
        const auto lines = with_pen(paths, pen_called(drawn.layout, "symbol_limit"));
        REQUIRE(lines.size() == 1);
        CHECK(scale.at(middle_of(lines[0])) == Approx(1).margin(hairline));
    }
}

TEST_CASE("a value far past its limit is an arrow at the gauge's end with the number of limits, and no dot", "[pictures]") {
    DrawnDocument drawn(small::judged("guard-band", 3));
    const auto pages = drawn.pages("answer");
    const double at_zero = zero_of_gauges(pages.at(0), drawn.layout),
                 width = size_called(drawn.layout, "gauge_width").in(units::point);
    const auto paths = within(paths_in(pages.at(0).items), at_zero - 3, at_zero + width + 3);
    const Marks marks(paths, drawn.layout);
    CHECK(marks.discs.empty());
    CHECK(marks.rings.empty());
    REQUIRE(marks.halves.size() == 1);  // the arrow's head
    CHECK(frame::bounds(marks.halves[0])->right().in(units::point) == Approx(at_zero + width).margin(0.2));
    CHECK(words_of(pages.at(0).items).find("2.2" + std::string(units::thin_space) + "\u00d7") != std::string::npos);
}

TEST_CASE("the picture of a rule: value, bar and edges of the guard band to one scale, and the mark of the verdict",
          "[pictures]") {
    for (const JudgedCase& one : cases) {
        CAPTURE(one.rule, one.limit);
        const RulePicture picture(one);
        CHECK(picture.scale().at((x_of(picture.bar[0]) + x_of(picture.bar[1])) / 2) == Approx(picture.value).margin(hairline));
        REQUIRE(picture.uprights.size() == 1 + one.edges.size());
        const double guard = one.guard_of_U * picture.expanded;
        // Beyond the limit the rule also keeps what scatter may have added to the value.
        const auto& below = picture.drawn.evaluation.decisions.at(0).guard_below;
        const double over = below ? below->in(units::micrometre) : guard;
        CHECK(over >= guard);
        for (const int side : one.edges) {
            const auto stands = [&](const frame::Path& edge) {
                return std::abs(picture.scale().at(middle_of(edge)) - (side < 0 ? one.limit - guard : one.limit + over)) < hairline;
            };
            CHECK(std::ranges::any_of(picture.uprights, stands));
        }
        // Hatched from the outermost edge, or the limit, to the other.
        const auto [from, to] = picture.hatched();
        CHECK(from == Approx(one.edges.empty() ? one.limit : one.limit - guard).margin(0.02));
        CHECK(to == Approx(one.edges.size() < 2 ? one.limit : one.limit + over).margin(0.02));
        // A disc where the value is refused.
        const Marks marks = picture.on_the_line();
        const bool refused = drawn_as_disc(one.symbol);
        REQUIRE(marks.discs.size() == (refused ? 1U : 0U));
        REQUIRE(marks.rings.size() == (refused ? 0U : 1U));
        CHECK(picture.scale().at(middle_of(refused ? marks.discs[0] : marks.rings[0])) == Approx(picture.value).margin(hairline));
    }
}

TEST_CASE("the parts of a U are as long as their shares, and the value's bar ends where U begins", "[pictures]") {
    nlohmann::json json = small::judged("guard-band", 9, 0);
    json["uncertainty"]["contributors"] = nlohmann::json::array({{{"name", "first"},
                                                                  {"applies_to", nlohmann::json::array({"EXX"})},
                                                                  {"standard", 0.4},
                                                                  {"unit", "um"},
                                                                  {"distribution", "normal"}}});
    DrawnDocument drawn(json);
    const evaluate::ParameterUncertainty& budget = *evaluate::find_uncertainty(drawn.evaluation, "x", "A");
    double listed = 0;
    for (const evaluate::BudgetLine& line : budget.contributors)
        if (line.influence != document::Influence::Scatter) listed += line.share;
    REQUIRE(listed > 0.05);
    REQUIRE(listed < 0.95);
    const auto pages = drawn.pages("uncertainty");
    const frame::Group& figure = group_of(pages.at(0).items, "uncertainty");
    const auto with_fill = [&](const char* colour) {
        std::vector<frame::Rect> boxes;
        for (const frame::Path& path : paths_in(figure.items))
            if (path.fill == colour_called(drawn.layout, colour) && !path.stroke) boxes.push_back(*frame::bounds(path));
        return boxes;
    };
    const auto parts = with_fill("part_listed"), values = with_fill("value_bar");
    REQUIRE(parts.size() >= 2);  // in the bar, and enlarged beside it
    REQUIRE(!values.empty());
    const double split_width = 22, bar_width = 96, limits = 1.5;
    CHECK(parts[1].width.in(units::point) == Approx(split_width * listed).margin(hairline));
    const double limit = drawn.evaluation.decisions.at(0).limit.in(units::micrometre), U = budget.expanded.in(units::micrometre),
                 value = drawn.evaluation.decisions.at(0).value->in(units::micrometre);
    CHECK(parts[0].width.in(units::point) == Approx(bar_width / limits * U / limit * listed).margin(hairline));
    CHECK(values[0].width.in(units::point) == Approx(bar_width / limits * value / limit).margin(hairline));
    CHECK(parts[0].left.in(units::point) == Approx(values[0].right().in(units::point)).margin(hairline));
}

}  // namespace wayfolio::testing
