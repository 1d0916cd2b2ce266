#include "page/filling/fill_pages.hpp"

#include "page/filling/filled_part.hpp"
#include "page/filling/least_height.hpp"
#include "text/signal_stack.hpp"

#include <algorithm>
#include <atomic>
#include <future>
#include <iterator>
#include <memory>
#include <numeric>
#include <stdexcept>
#include <type_traits>

namespace wayfolio::page {
namespace {

struct Filled {
    std::vector<FilledPart> parts;
    PageNumbers anchors;
};

std::vector<Blocks> independent_parts(const Blocks& blocks) {
    std::vector<Blocks> parts;
    for (const report::Block* block : blocks) {
        if (parts.empty() || !shares_its_end(*parts.back().back()) || !may_begin_below(*block)) parts.emplace_back();
        parts.back().push_back(block);
    }
    return parts;
}

/// Takes the first block of a kind that begins here: it fills any page, for it goes on over the next one. None does: null.
template <class Flowing>
const report::Block* take_flowing(const Composer& composer, Blocks& waiting) {
    const auto at = std::ranges::find_if(waiting, [&](const report::Block* block) {
        const auto* const flowing = std::get_if<Flowing>(block);
        if (!flowing || !begins_here(composer, *block)) return false;
        if constexpr (std::is_same_v<Flowing, report::Sections>) return !flowing->ends_report;
        else return true;
    });
    if (at == waiting.end()) return nullptr;
    const report::Block* const taken = *at;
    waiting.erase(at);
    return taken;
}

/// Takes the first block that fits whole below what stands on the page. None does: null.
const report::Block* take_whole(const Composer& composer, Blocks& waiting) {
    const auto at = std::ranges::find_if(waiting, [&](const report::Block* block) {
        const auto* const text = std::get_if<report::Sections>(block);
        if ((text && text->ends_report) || !begins_here(composer, *block)) return false;
        return composer.fits(below_all(composer, *block) - composer.y + height_alone(composer, *block));
    });
    if (at == waiting.end()) return nullptr;
    const report::Block* const taken = *at;
    waiting.erase(at);
    return taken;
}

/// For a page that would end early, where no text fills it: readings, a block that fits whole, or what the report ends with.
const report::Block* take_anything(const Composer& composer, Blocks& waiting, Halves& halves) {
    if (const report::Block* const readings = take_flowing<report::Readings>(composer, waiting)) return readings;
    if (const report::Block* const whole = take_whole(composer, waiting)) return whole;
    return take_from_end(composer, waiting, halves);
}

const report::Block* take_first(Blocks& waiting) {
    const report::Block* const first = waiting.front();
    waiting.erase(waiting.begin());
    return first;
}

/// Takes what comes next: the first block, or text from further behind that fills the rest of a page; anything where it would end early.
const report::Block* take_next(const Composer& composer, Blocks& waiting, Halves& halves) {
    const double empty = composer.page_number() > 0 && composer.may_share_page ? composer.empty_share() : 0;
    if (empty > worth_filling && !begins_here(composer, *waiting.front())) {
        if (const report::Block* const text = take_text(composer, waiting, halves)) return text;
        const report::Block* const text = empty > nearly_early ? take_flowing<report::Sections>(composer, waiting) : nullptr;
        if (text) return text;
        if (empty > nearly_early)
            if (const report::Block* const last = take_anything(composer, waiting, halves)) return last;
    }
    return take_first(waiting);
}

/// In its own order a report is told best; the ends of its pages are filled best from further behind.
enum class Order { Filling, Own };

FilledPart fill_in_order(Blocks waiting, const Tools& tools, const PageNumbers& known, Order order) {
    Composer composer(tools, known);
    FilledPart part;
    while (!waiting.empty()) {
        const report::Block* const next = order == Order::Filling ? take_next(composer, waiting, part.halves) : take_first(waiting);
        part.blocks.push_back(place_block(composer, *next));
        composer.may_share_page = shares_its_end(*next);
    }
    part.anchors = composer.anchors();
    part.drafts = composer.take();
    const auto ends_early = [&](const Draft& page) { return composer.empty_share(page) > most_empty; };
    part.early_ends = std::count_if(part.drafts.begin(), part.drafts.end() - 1, ends_early);
    return part;
}

/// Text that was taken forward may leave too little for the page that it came from: then nothing is taken forward, if that is better.
FilledPart fill_part(const Blocks& waiting, const Tools& tools, const PageNumbers& known) {
    FilledPart filling = fill_in_order(waiting, tools, known, Order::Filling);
    if (filling.early_ends == 0) return filling;
    FilledPart own = fill_in_order(waiting, tools, known, Order::Own);
    const bool better = own.early_ends < filling.early_ends && own.drafts.size() <= filling.drafts.size();
    return better ? std::move(own) : std::move(filling);
}

/// Takes the first readings if they fit whole. They do not: null.
const report::Block* take_whole_readings(const Composer& composer, Blocks& waiting) {
    const auto first =
        std::ranges::find_if(waiting, [](const report::Block* block) { return std::holds_alternative<report::Readings>(*block); });
    if (first == waiting.end()) return nullptr;
    const report::Block* const taken = *first;
    const Paper height = height_alone(composer, std::get<report::Readings>(*taken));
    if (!composer.fits(below_all(composer, *taken) - composer.y + height)) return nullptr;
    waiting.erase(first);
    return taken;
}

/// The first page. What it leaves for a second one does not fill that: text of the report goes on below.
/// @param waiting all other blocks; what is taken leaves them
FilledPart fill_answer(const report::Block* answer, Blocks& waiting, const Tools& tools, const PageNumbers& known) {
    Composer composer(tools, known);
    FilledPart part;
    part.blocks.push_back(place_block(composer, *answer));
    const int own_pages = composer.page_number();
    composer.may_share_page = own_pages > 1;
    while (own_pages > 1 && composer.empty_share() > worth_filling) {
        const report::Block* next = take_text(composer, waiting, part.halves);
        const bool early = composer.empty_share() > nearly_early;
        if (!next && early) next = take_whole_readings(composer, waiting);
        if (!next && early) next = take_whole(composer, waiting);
        if (!next && early) next = take_from_end(composer, waiting, part.halves);
        if (!next) break;
        part.blocks.push_back(place_block(composer, *next));
    }
    part.anchors = composer.anchors();
    part.drafts = composer.take();
    return part;
}

/// The places of the parts, longest first, so that two threads end together.
std::vector<std::size_t> longest_first(const std::vector<Blocks>& parts) {
    std::vector<std::size_t> order(parts.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, std::greater<>(), [&](std::size_t i) { return parts[i].size(); });
    return order;
}

/// One thread or two take one part after the other: which takes which changes nothing of the result.
std::vector<FilledPart> fill_parts(const std::vector<Blocks>& parts, const Tools& tools, const PageNumbers& known) {
    std::vector<FilledPart> filled(parts.size());
    const std::vector<std::size_t> order = longest_first(parts);
    std::atomic<std::size_t> next = 0;
    const auto place_next = [&](const Tools& own) {
        for (std::size_t taken = next++; taken < order.size(); taken = next++) {
            const std::size_t i = order[taken];
            try {
                filled[i] = fill_part(parts[i], own, known);
            } catch (...) {
                filled[i].failed = std::current_exception();
            }
        }
    };
    std::future<void> beside;
    const text::Shaper* const other = parts.size() > 1 ? tools.shaper.beside() : nullptr;
    if (other != nullptr) beside = std::async(std::launch::async, [&] {
        const text::SignalStack room;
        place_next({tools.layout, *other});
    });
    place_next(tools);
    if (beside.valid()) beside.get();
    return filled;
}

Filled fill(const report::Model& model, const Tools& tools, const PageNumbers& known) {
    Blocks waiting;
    for (const report::Block& block : model.blocks) waiting.push_back(&block);
    Filled whole;
    if (!waiting.empty() && std::holds_alternative<report::Answer>(*waiting.front())) {
        const report::Block* const answer = waiting.front();
        waiting.erase(waiting.begin());
        whole.parts.push_back(fill_answer(answer, waiting, tools, known));
    }
    std::ranges::move(fill_parts(independent_parts(waiting), tools, known), std::back_inserter(whole.parts));
    int before = 0;
    for (const FilledPart& part : whole.parts) {
        if (part.failed) std::rethrow_exception(part.failed);
        for (const auto& [anchor, page] : part.anchors) whole.anchors[anchor] = before + page;
        before += static_cast<int>(part.drafts.size());
    }
    return whole;
}

}  // namespace

std::vector<Draft> fill_pages(const report::Model& model, const Tools& tools) {
    PageNumbers known;
    constexpr int most_rounds = 4;
    for (int round = 0; round < most_rounds; ++round) {
        Filled whole = fill(model, tools, known);
        const auto named = [&](FilledPart& part) { return name_pages(part, tools, whole.anchors); };
        if (!std::ranges::all_of(whole.parts, named)) {
            known = std::move(whole.anchors);
            continue;
        }
        std::vector<Draft> pages;
        for (FilledPart& part : whole.parts) std::ranges::move(part.drafts, std::back_inserter(pages));
        return pages;
    }
    throw std::logic_error("the page numbers of a report change the pages that they name");
}

}  // namespace wayfolio::page
