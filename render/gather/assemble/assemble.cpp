#include "gather/assemble/assembly.hpp"

#include "gather/draft/document_order.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

namespace wayfolio::gather {
namespace {

using input::JsonKind;

/// Puts one series after the other into the document.
class SeriesWriter {
public:
    SeriesWriter(Assembly& assembly, const Circumstances& at) : assembly_(assembly), at_(at) {}

    void write(const SeriesCollector& from, const TraceText* trace) {
        const SeriesMapping& mapping = from.mapping();
        SeriesAccount account{.id = id_of(mapping, at_.request.state),
                              .error = std::string(mapping.members.string("error")),
                              .state = state_of(mapping, at_.request.state)};
        Node& all = series_array();
        const auto there = std::ranges::find_if(all.items, [&](const Node& one) { return one.string("id") == account.id; });
        const auto place = static_cast<std::size_t>(there - all.items.begin());
        if (there == all.items.end())
            all.items.push_back(object_node());
        else if (!may_fill(*there, place, account.id, !from.empty(), trace != nullptr))
            return;
        Node& series = all.items[place];
        take_head(series, mapping, account, place);
        FilledSeries filled{.place = place};
        std::vector<std::uint16_t> files = from.files();
        if (!from.empty()) fill_readings(series, from, filled, account);
        if (!from.empty()) tell_derived(mapping, account);
        filled.from = &from;
        if (trace != nullptr) {
            files.insert(files.end(), trace->files.begin(), trace->files.end());
            Node node = object_node();
            if (trace->source->approach) node.set("approach", string_node(document::word(*trace->source->approach)));
            node.set("file", string_node(trace->source->side_file));
            series.set("trace", std::move(node), series_keys);
            account.samples = trace->samples;
        }
        series.set("origin", origin_node(files, mapping.id, at_), series_keys);
        assembly_.filled.push_back(std::move(filled));
        assembly_.account.series.push_back(std::move(account));
    }

private:
    Node& series_array() {
        if (Node* const there = assembly_.document.member("series")) return *there;
        return assembly_.document.set("series", array_node(), document_keys);
    }

    void problem(std::string pointer, std::string found, std::string expected, std::string hint) {
        const std::string file = at_.request.into ? at_.request.into->file : at_.request.mapping_file;
        assembly_.problems.push_back({file, {0, 0, std::move(pointer)}, std::move(found), std::move(expected), std::move(hint)});
    }

    /// Readings that are there are never overwritten unless somebody said which.
    bool may_fill(Node& series, std::size_t place, const std::string& id, bool runs, bool trace) {
        const bool has = (runs && series.member("runs") != nullptr) || (trace && series.member("trace") != nullptr);
        const bool replace = std::ranges::find(at_.request.replace, id) != at_.request.replace.end();
        if (has && !replace) {
            problem(fmt::format("/series/{}", place), fmt::format("series \"{}\", which has readings already", id),
                    "a series without readings", fmt::format("give --replace {} to overwrite them, or another --state", id));
            return false;
        }
        if (has)
            std::erase_if(series.items, [&](const Node& member) {
                return (runs && (member.key == "runs" || member.key == "targets")) || (trace && member.key == "trace");
            });
        return true;
    }

    /// What no cell says, as the parts of the mapping that gave readings have it.
    void tell_derived(const SeriesMapping& mapping, SeriesAccount& account) const {
        bool positions = false, motion = false, nearest = false, repeat = false;
        for (const ExportMapping& entry : at_.mapping.exports)
            for (const ValueColumns& values : entry.values) {
                if (&at_.mapping.series[values.series] != &mapping) continue;
                positions = positions || values.reads == Reads::Position;
                repeat = repeat || (entry.run && entry.run->one == OneRun::Repeat);
                motion = motion || entry.motion.has_value();
                nearest = nearest || (entry.position && entry.position->by == PositionBy::Nearest);
            }
        if (positions)
            account.derived.push_back(fmt::format("deviations follow from actual positions, {}, in {}",
                                                  mapping.target_minus_actual ? "target minus actual" : "actual minus target",
                                                  mapping.unit.spelling));
        if (nearest) account.derived.emplace_back("targets are those nearest to the actual positions");
        if (repeat) account.derived.emplace_back("runs are counted by how often a target was read before");
        if (motion) account.derived.emplace_back("runs and approaches follow from the way the position goes");
    }

    /// What the mapping says of a series must not contradict what the document says of it.
    void take_head(Node& series, const SeriesMapping& mapping, SeriesAccount& account, std::size_t place) {
        const auto take = [&](const std::string& key, const Node& value) {
            const Node* const there = series.member(key);
            if (there == nullptr)
                series.set(key, value, series_keys);
            else if (!there->says_the_same(value))
                problem(fmt::format("/series/{}/{}", place, key), fmt::format("another \"{}\" than the mapping has", key),
                        fmt::format("the same in both: {}", written(value).substr(0, 60)), {});
        };
        take("id", string_node(account.id));
        for (const Node& member : mapping.members.items)
            if (member.key != "id" && member.key != "state") take(member.key, member);
        if (!account.state.empty()) take("state", string_node(account.state));
        if (mapping.state.empty() && !account.state.empty())
            account.derived.push_back(fmt::format("the state \"{}\" is the one named for all of them", account.state));
    }

    Assembly& assembly_;
    const Circumstances& at_;
};

Node sample_node(const SurroundingsSample& sample) {
    Node node = object_node({named("time", string_node(sample.time))}), machine = object_node();
    for (const auto& [column, value] : sample.values) {
        if (column->key == "machine_C")
            machine.set(column->sensor, number_node(value.text()));
        else
            node.set(column->key, number_node(value.text()));
    }
    if (!machine.items.empty()) node.set("machine_C", std::move(machine));
    return node;
}

void add_surroundings(Assembly& assembly, const Surroundings& surroundings, const Circumstances& at) {
    if (surroundings.samples.empty()) return;
    if (assembly.document.member("environment") == nullptr) assembly.document.set("environment", object_node(), document_keys);
    Node& environment = *assembly.document.member("environment");
    if (environment.member("samples") == nullptr) environment.set("samples", array_node(), environment_keys);
    Node& samples = *environment.member("samples");
    std::set<std::string, std::less<>> times;
    for (const Node& there : samples.items) times.emplace(there.string("time"));
    for (const SurroundingsSample& sample : surroundings.samples) {
        if (!times.contains(sample.time)) {
            samples.items.push_back(sample_node(sample));
            ++assembly.account.surroundings;
            continue;
        }
        // The same log gathered again says nothing new; another one at the same time would overwrite.
        const Node node = sample_node(sample);
        if (std::ranges::none_of(samples.items, [&](const Node& there) { return there.says_the_same(node); }))
            assembly.problems.push_back({at.request.into->file,
                                         {0, 0, "/environment/samples"},
                                         "another sample at " + sample.time,
                                         "times that the document does not have yet",
                                         "take the samples out of the document first"});
    }
    Node origin = origin_node(surroundings.files, {}, at);
    if (const Node* const before = environment.member("origin"); before != nullptr && before->member("files") != nullptr) {
        std::vector<Node> files = before->member("files")->items;
        for (const Node& file : origin.member("files")->items)
            if (std::ranges::none_of(files, [&](const Node& there) { return there.says_the_same(file); })) files.push_back(file);
        origin.set("files", array_node(std::move(files)));
    }
    environment.set("origin", std::move(origin), environment_keys);
}

/// A planned series without readings stands behind those that have some.
void put_waiting_last(Assembly& assembly) {
    Node* const all = assembly.document.member("series");
    if (all == nullptr) return;
    const auto waits = [](const Node& one) {
        return one.member("plan") != nullptr && one.member("runs") == nullptr && one.member("trace") == nullptr &&
               one.member("stated") == nullptr;
    };
    std::vector<std::size_t> order(all->items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_partition(order, [&](std::size_t place) { return !waits(all->items[place]); });
    for (FilledSeries& filled : assembly.filled)
        filled.place = static_cast<std::size_t>(std::ranges::find(order, filled.place) - order.begin());
    std::vector<Node> ordered;
    for (const std::size_t place : order) {
        if (waits(all->items[place])) assembly.account.waiting.emplace_back(all->items[place].string("id"));
        ordered.push_back(std::move(all->items[place]));
    }
    all->items = std::move(ordered);
}

}  // namespace

std::string state_of(const SeriesMapping& series, const std::string& state) { return series.state.empty() ? state : series.state; }

std::string id_of(const SeriesMapping& series, const std::string& state) {
    return series.state.empty() && !state.empty() ? series.id + "-" + state : series.id;
}

Node file_node(const NamedFile& file) {
    Node node = object_node({named("file", string_node(file.name)), named("sha256", string_node(file.sha256))});
    if (!file.kept.empty()) node.set("kept", string_node(file.kept));
    return node;
}

Node origin_node(const std::vector<std::uint16_t>& files, const std::string& series, const Circumstances& at) {
    std::vector<Node> nodes;
    std::set<std::uint16_t> named_already;
    for (const std::uint16_t file : files)
        if (named_already.insert(file).second) nodes.push_back(file_node(at.files[file]));
    Node origin = object_node({named("files", array_node(std::move(nodes))), named("mapping", file_node(at.mapping_file))});
    if (!series.empty()) origin.set("series", string_node(series));
    return origin;
}

Assembly assemble(Node document, const Collected& collected, const Circumstances& at) {
    Assembly assembly{.document = std::move(document)};
    SeriesWriter writer(assembly, at);
    for (std::size_t place = 0; place < collected.series.size(); ++place) {
        const auto trace = collected.traces.find(place);
        if (collected.series[place]->empty() && trace == collected.traces.end()) continue;
        writer.write(*collected.series[place], trace == collected.traces.end() ? nullptr : &trace->second);
    }
    add_surroundings(assembly, collected.surroundings, at);
    put_waiting_last(assembly);
    return assembly;
}

}  // namespace wayfolio::gather
