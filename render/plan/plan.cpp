#include "plan/plan.hpp"

#include "document/facts.hpp"
#include "document/read_document.hpp"
#include "evaluate/evaluation.hpp"
#include "gather/draft/document_order.hpp"
#include "gather/facts/merge_facts.hpp"
#include "input/digest.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::plan {
namespace {

using document::ErrorKind;
using document::ErrorSymbol;
using gather::Node;

constexpr std::string_view plan_file = "the plan";

Node number(double value) { return gather::number_node(units::shortest(value)); }
Node whole(std::size_t value) { return gather::number_node(std::to_string(value)); }

std::string error_words(const ErrorSymbol& error) {
    switch (error.kind()) {
        case ErrorKind::Positioning:
            return "positioning error of " + error.axis;
        case ErrorKind::Straightness:
            return fmt::format("straightness error of {} in {}", error.axis, error.direction);
        case ErrorKind::Angle:
            return fmt::format("angular error motion of {} about {}", error.axis, error.direction);
    }
    return "";
}

/// The unit that readings of an error are mostly taken in.
std::string_view unit_of(const ErrorSymbol& error) {
    if (error.kind() == ErrorKind::Straightness || (error.kind() == ErrorKind::Positioning && !error.axis_is_rotary())) return "um";
    return error.axis_is_rotary() ? "arcsec" : "urad";
}

std::string lower(std::string text) {
    for (char& letter : text)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    return text;
}

[[noreturn]] void refuse(const std::string& pointer, std::string found, std::string expected, std::string hint) {
    throw input::InputRejected({{std::string(plan_file), {0, 0, pointer}, std::move(found), std::move(expected), std::move(hint)}});
}

/// The travel of an axis as the facts have it.
std::optional<Range> travel_in(const std::vector<gather::FactsFile>& facts, const std::string& axis) {
    for (const gather::FactsFile& file : facts) {
        const document::Facts read = document::read_facts(file.bytes, file.path, file.read_side_file);
        const document::Axis* const found = document::find_axis(read.document, axis);
        if (found != nullptr && found->travel)
            return Range{found->travel->from.in(found->travel->unit), found->travel->to.in(found->travel->unit), found->travel->unit};
    }
    return std::nullopt;
}

Node runs_of_zeros(const Planned& planned) {
    std::vector<Node> runs;
    for (std::size_t run = 0; run < 2 * planned.runs; ++run) {
        std::vector<Node> zeros(planned.targets.size(), gather::number_node("0"));
        runs.push_back(gather::object_node({gather::named("approach", gather::string_node(run % 2 == 0 ? "positive" : "negative")),
                                            gather::named("deviations", gather::array_node(std::move(zeros)))}));
    }
    return gather::array_node(std::move(runs));
}

Node series_node(const Planned& planned, const PlannedSeries& series) {
    std::vector<Node> targets;
    for (const double target : planned.targets) targets.push_back(number(target));
    Node plan =
        gather::object_node({gather::named("positive_runs", whole(planned.runs)), gather::named("negative_runs", whole(planned.runs))});
    plan.set("order", gather::string_node(planned.order == document::RunOrder::Alternating ? "alternating" : "one-approach-first"));
    plan.set("seed", whole(planned.seed));
    Node node = gather::object_node(
        {gather::named("id", gather::string_node(series.id)), gather::named("error", gather::string_node(series.error))});
    if (!series.state.empty()) node.set("state", gather::string_node(series.state));
    node.set("unit", gather::string_node(series.unit));
    node.set("position_unit", gather::string_node(planned.range.unit.spelling));
    node.set("plan", std::move(plan));
    node.set("targets", gather::array_node(std::move(targets)));
    return node;
}

/// What nobody else says of the axis: its name, and the travel that is measured.
void add_axis(Node& document, const Planned& planned, const std::string& axis) {
    if (document.member("machine") == nullptr) document.set("machine", gather::object_node(), gather::document_keys);
    Node& machine = *document.member("machine");
    if (machine.member("axes") == nullptr) machine.set("axes", gather::array_node());
    Node& axes = *machine.member("axes");
    auto found = std::ranges::find_if(axes.items, [&](const Node& one) { return one.string("name") == axis; });
    if (found == axes.items.end()) {
        axes.items.push_back(gather::object_node({gather::named("name", gather::string_node(axis))}));
        found = std::prev(axes.items.end());
    }
    if (found->member("travel") != nullptr) return;
    found->set("travel",
               gather::object_node({gather::named("from", number(planned.range.from)), gather::named("to", number(planned.range.to)),
                                    gather::named("unit", gather::string_node(planned.range.unit.spelling))}));
}

Node setup_node(const PlanRequest& request, bool rotary) {
    Node setup = gather::object_node();
    if (request.feed) setup.set(rotary ? "feed_deg_per_min" : "feed_mm_per_min", number(*request.feed));
    if (request.dwell_s) setup.set("dwell_s", number(*request.dwell_s));
    return setup;
}

document::Document read(const Node& node) {
    const auto nothing = [](const std::string& name) -> std::string { throw input::InputMissing(name, "is not beside the plan"); };
    return document::read_document(gather::written(node), std::string(plan_file), nothing);
}

/// Faults of the whole document that come from facts are told where those stand.
document::Document read_with_sources(const Node& node, const gather::Sources& sources) {
    try {
        return read(node);
    } catch (const input::InputRejected& rejected) {
        std::vector<input::Problem> problems = rejected.problems();
        for (input::Problem& problem : problems) {
            if (const gather::Source* const facts = gather::source_of(sources, problem.place.pointer)) {
                problem.file = facts->file;
                problem.place = facts->place;
            } else {
                problem.place = {0, 0, problem.place.pointer};
            }
        }
        throw input::InputRejected(std::move(problems));
    }
}

/// The conditions of ISO 230-2 that this plan meets once every reading is taken: those of a positioning series at the same targets.
void judge(Planned& planned, Node node, const ErrorSymbol& error, const gather::Sources& sources) {
    // U, V and W move along X, Y and Z (ISO 841).
    const std::string_view along = "XYZUVWABC", direction = "XYZXYZABC";
    const std::string positioning = fmt::format("E{}{}", direction[along.find(error.axis[0])], error.axis);
    Node& all = *node.member("series");
    Node as_positioning =
        series_node(planned, {.id = "positioning", .error = positioning, .unit = error.axis_is_rotary() ? "arcsec" : "um"});
    as_positioning.set("runs", runs_of_zeros(planned));
    all.items.insert(all.items.begin(), std::move(as_positioning));
    gather::Sources moved;  // the series of the plan stand one place further
    for (const auto& [pointer, source] : sources)
        if (!pointer.starts_with("/series/")) moved.emplace(pointer, source);
    const document::Document document = read_with_sources(node, moved);
    planned.conditions = evaluate::evaluate(document).series.at(0).conditions;
    if (document.setup) {
        planned.feed = planned.range.rotary() ? document.setup->feed_deg_per_min : document.setup->feed_mm_per_min;
        planned.dwell_s = document.setup->dwell_s;
    }
    if (document.machine)
        for (const std::string& part : {document.machine->maker, document.machine->model, document.machine->serial})
            if (!part.empty()) planned.machine += (planned.machine.empty() ? "" : ", ") + part;
}

void take_time(Planned& planned) {
    if (!planned.feed || !planned.dwell_s || *planned.feed <= 0) return;
    const double run = planned.range.span() / *planned.feed * 60 + static_cast<double>(planned.targets.size()) * *planned.dwell_s;
    const double series = run * 2 * static_cast<double>(planned.runs);
    planned.time = {run, series, series * static_cast<double>(planned.series.size())};
}

void name_facts(Node& document, const std::vector<gather::FactsAccount>& facts) {
    std::vector<Node> files;
    for (const gather::FactsAccount& one : facts)
        files.push_back(gather::object_node(
            {gather::named("file", gather::string_node(one.file)), gather::named("sha256", gather::string_node(one.sha256))}));
    if (!files.empty()) document.set("facts", gather::array_node(std::move(files)), gather::document_keys);
}

void name_series(Planned& planned, const PlanRequest& request) {
    const std::vector<std::string> states = request.states.empty() ? std::vector<std::string>{""} : request.states;
    for (const std::string& state : states)
        for (const ErrorSymbol& error : request.errors) {
            const std::string symbol = error.text();
            planned.series.push_back({.id = lower(error.axis + "-" + symbol) + (state.empty() ? "" : "-" + state),
                                      .error = symbol,
                                      .words = error_words(error),
                                      .state = state,
                                      .unit = std::string(unit_of(error))});
        }
}

/// A travel that can be planned. Its places are those that a document may have, and nobody reads a thousand targets by hand.
std::size_t target_count(const Range& range, const std::optional<std::size_t>& wanted) {
    constexpr double most_degrees = 36'000, most_millimetres = 1'000'000;
    constexpr std::size_t most_targets = 1'000;
    const double most = range.rotary() ? most_degrees : most_millimetres, far = std::max(std::abs(range.from), std::abs(range.to));
    if (!(far * range.unit.in_natural <= most))
        refuse("/machine/axes", fmt::format("a travel from {} to {} {}", range.from, range.to, range.unit.symbol),
               fmt::format("places of at most {} {}", most, range.rotary() ? "deg" : "mm"), "check its unit");
    const std::size_t count = wanted.value_or(least_targets(range));
    if (count > most_targets)
        refuse("/series/0/targets", fmt::format("{} targets", count), fmt::format("at most {}", most_targets), "plan a shorter travel");
    return count;
}

}  // namespace

Planned plan(const PlanRequest& request) {
    if (auto problems = gather::faults_of(request.facts); !problems.empty()) throw input::InputRejected(std::move(problems));
    const ErrorSymbol& error = request.errors.at(0);
    const auto range = request.range ? request.range : travel_in(request.facts, error.axis);
    if (!range)
        refuse("/machine/axes", "no travel of " + error.axis, "the travel that is measured",
               "give --travel FROM:TO, or facts with the machine's axes");
    Planned planned{.range = *range, .runs = request.runs, .order = request.order, .seed = request.seed};
    planned.targets = target_positions(*range, target_count(*range, request.targets), request.seed);
    if (std::ranges::adjacent_find(planned.targets) != planned.targets.end())
        refuse("/series/0/targets", fmt::format("{} targets, two of which are one", planned.targets.size()),
               "targets that stand apart when they are rounded", "plan fewer targets, or a longer travel");
    name_series(planned, request);
    Node document = gather::object_node(
        {gather::named("format", gather::string_node("wayfolio-result")), gather::named("version", gather::number_node("1"))});
    if (Node setup = setup_node(request, range->rotary()); !setup.items.empty())
        document.set("setup", std::move(setup), gather::document_keys);
    std::vector<Node> series;
    for (const PlannedSeries& one : planned.series) series.push_back(series_node(planned, one));
    document.set("series", gather::array_node(std::move(series)), gather::document_keys);
    gather::MergedFacts merged = gather::merge_facts(document, request.facts, [](const std::string& pointer) {
        return gather::Source{"the command line", {0, 0, pointer}};
    });
    if (!merged.problems.empty()) throw input::InputRejected(std::move(merged.problems));
    name_facts(document, merged.accounts);
    add_axis(document, planned, error.axis);
    judge(planned, document, error, merged.sources);
    take_time(planned);
    planned.facts = std::move(merged.accounts);
    planned.document = gather::written(document);
    return planned;
}

}  // namespace wayfolio::plan
