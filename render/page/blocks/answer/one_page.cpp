#include "page/blocks/answer/answer_parts.hpp"

#include <algorithm>
#include <functional>
#include <utility>

namespace wayfolio::page {
namespace {

using report::Answer;
using report::LeftOut;
using report::QuantityRow;
using report::Standing;

/// Things of one kind that a page may do without. `keep` leaves the first of them.
struct Dispensable {
    std::size_t count;
    std::function<void(Answer&, LeftOut&, std::size_t kept)> keep;
};

/// Of one list in the answer.
template <class Thing>
Dispensable of_list(const Answer& whole, std::vector<Thing> Answer::*list, std::size_t LeftOut::*count) {
    return {(whole.*list).size(), [list, count](Answer& some, LeftOut& left, std::size_t kept) {
                left.*count += (some.*list).size() - kept;
                (some.*list).resize(kept);
            }};
}

/// Values that answer nothing, over all their headings.
Dispensable quiet_rows(const Answer& whole) {
    std::size_t count = 0;
    for (const auto& some : whole.quiet) count += some.rows.size();
    return {count, [](Answer& some, LeftOut& left, std::size_t kept) {
                for (auto& rows : some.quiet) {
                    const std::size_t here = std::min(kept, rows.rows.size());
                    left.quiet += rows.rows.size() - here;
                    rows.rows.resize(here);
                    kept -= here;
                }
                std::erase_if(some.quiet, [](const auto& rows) { return rows.rows.empty(); });
            }};
}

bool is_kept_to(const QuantityRow& row) { return row.verdict.standing >= Standing::InsideByLess; }

/// Rows of those limits that are kept, or of the others; the least remarkable goes first.
Dispensable rows(const Answer& whole, bool kept_limits) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < whole.rows.size(); ++i)
        if (is_kept_to(whole.rows[i]) == kept_limits) order.push_back(i);
    std::ranges::stable_sort(order, {}, [&](std::size_t i) {
        const QuantityRow& row = whole.rows[i];
        return std::pair(row.verdict.standing, -row.value_of_limit.value_or(0));
    });
    return {order.size(), [order, kept_limits](Answer& some, LeftOut& left, std::size_t kept) {
                // Others of the rows may be gone already: these are told apart by their own standing, in the page's order.
                std::vector<std::size_t> mine;
                for (std::size_t i = 0; i < some.rows.size(); ++i)
                    if (is_kept_to(some.rows[i]) == kept_limits) mine.push_back(i);
                std::vector<std::size_t> by_place = order;
                std::ranges::sort(by_place);
                std::vector<std::size_t> gone;
                for (std::size_t i = kept; i < order.size(); ++i)
                    gone.push_back(mine[static_cast<std::size_t>(std::ranges::find(by_place, order[i]) - by_place.begin())]);
                std::ranges::sort(gone, std::greater<>());
                for (const std::size_t i : gone) {
                    ++left.rows[some.rows[i].verdict.standing];
                    some.rows.erase(some.rows.begin() + static_cast<std::ptrdiff_t>(i));
                }
            }};
}

std::size_t letters(const report::Fact& fact) {
    std::size_t all = fact.name.size();
    for (const Text& line : fact.lines) all += line.words().size();
    return all;
}

/// The longest goes first.
Dispensable facts(const Answer& whole) {
    return {whole.facts.size(), [](Answer& some, LeftOut& left, std::size_t kept) {
                for (; some.facts.size() > kept; ++left.facts) some.facts.erase(std::ranges::max_element(some.facts, {}, letters));
            }};
}

Dispensable body(const Answer& whole) {
    return {whole.opening.body.empty() ? 0U : 1U, [](Answer& some, LeftOut& left, std::size_t kept) {
                if (kept == 1) return;
                some.opening.body = {};
                ++left.paragraphs;
            }};
}

/// What goes first stands first.
std::vector<Dispensable> dispensable(const Answer& whole) {
    return {quiet_rows(whole),
            of_list(whole, &Answer::what_next, &LeftOut::steps),
            of_list(whole, &Answer::signatures, &LeftOut::signatures),
            rows(whole, /*kept_limits=*/true),
            facts(whole),
            of_list(whole, &Answer::shortened, &LeftOut::notes),
            body(whole),
            of_list(whole, &Answer::weaknesses, &LeftOut::weaknesses),
            of_list(whole, &Answer::issue_note, &LeftOut::issues),
            rows(whole, /*kept_limits=*/false)};
}

Answer with(const Answer& whole, const std::vector<Dispensable>& all, const std::vector<std::size_t>& kept) {
    Answer some = whole;
    LeftOut left;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (kept[i] < all[i].count) all[i].keep(some, left, kept[i]);
    if (Text words = report::words_of(left); !words.empty()) some.rows_note.insert(some.rows_note.begin(), std::move(words));
    return some;
}

bool fits_a_page(const Composer& composer, const Answer& some) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    place_answer(trial, some);
    return trial.page_number() == 1 && !trial.has_margin_rests();
}

}  // namespace

Answer fitted_to_a_page(const Composer& composer, const Answer& whole) {
    const std::vector<Dispensable> all = dispensable(whole);
    std::vector<std::size_t> kept;
    for (const Dispensable& some : all) kept.push_back(some.count);
    const auto fits = [&] { return fits_a_page(composer, with(whole, all, kept)); };
    // As many as fit beside the others; of which none does.
    const auto keep_most = [&](std::size_t i) {
        std::size_t above = all[i].count + 1;
        while (above - kept[i] > 1) {
            const std::size_t known = std::exchange(kept[i], kept[i] + (above - kept[i]) / 2);
            if (!fits()) above = std::exchange(kept[i], known);
        }
    };
    std::size_t gone = 0;
    for (; gone < all.size() && !fits(); ++gone) kept[gone] = 0;
    // What went last took the room: what went before comes back as far as that has left any.
    while (gone-- > 0) keep_most(gone);
    return with(whole, all, kept);
}

}  // namespace wayfolio::page
