#include "gather/gather.hpp"

#include "gather/assemble/assembly.hpp"
#include "gather/exports/numbers.hpp"
#include "input/customer_copy.hpp"
#include "input/digest.hpp"
#include "input/json/nearest.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace wayfolio::gather {
namespace {

/// Which parts of a mapping read a file: all whose name for it fits.
std::vector<const ExportMapping*> parts_for(const Mapping& mapping, const std::string& name) {
    std::vector<const ExportMapping*> parts;
    for (const ExportMapping& entry : mapping.exports)
        if (matches(entry.file, name)) parts.push_back(&entry);
    return parts;
}

/// All exports, each read once for each part of the mapping that names it, with the faults of all.
class Gathering {
public:
    Gathering(const GatherRequest& request, const Mapping& mapping, const Node& document) : request_(request), mapping_(mapping) {
        for (const SeriesMapping& series : mapping.series) collected.series.push_back(std::make_unique<SeriesCollector>(series));
        const auto know = [&](const Node& part) {
            const Node* const origin = part.member("origin");
            const Node* const named = origin == nullptr ? nullptr : origin->member("files");
            if (named == nullptr) return;
            for (const Node& file : named->items) known_[std::string(file.string("file"))].emplace(file.string("sha256"));
        };
        if (const Node* const all = document.member("series")) std::ranges::for_each(all->items, know);
        if (const Node* const environment = document.member("environment")) know(*environment);
    }

    void read_all(bool all_parts) {
        std::vector<ExportFile> exports = request_.exports;
        std::ranges::stable_sort(exports, before_by_number, &ExportFile::name);
        std::set<const ExportMapping*> used;
        for (const ExportFile& file : exports) {
            const auto parts = parts_for(mapping_, file.name);
            used.insert(parts.begin(), parts.end());
            if (parts.empty())
                account.not_read.push_back(file.name);
            else
                read(file, parts);
        }
        std::vector<std::string_view> names;
        for (const ExportFile& file : exports) names.push_back(file.name);
        for (const ExportMapping& entry : mapping_.exports) {
            if (used.contains(&entry) || !all_parts) continue;
            input::Place place = entry.place;
            place.pointer += "/file";
            problems.push_back({mapping_.file, std::move(place), "no export with the name " + input::quoted(entry.file),
                                "one of the exports given: " + input::listed(names), input::nearest_hint(entry.file, names)});
        }
    }

    Collected collected;
    std::vector<NamedFile> files;
    std::vector<document::SideFile> kept;
    std::vector<input::Problem> problems;
    Account account;

    /// Keeps bytes as a side file under a name that no other content has. @returns the name, "" where nothing is kept
    std::string keep(const std::string& name, const std::string& sha256, const std::string& bytes) {
        if (!request_.keep) return {};
        const std::size_t dot = std::min(name.rfind('.'), name.size());
        const std::string as = holds_other(name, bytes) ? name.substr(0, dot) + "-" + sha256.substr(0, 8) + name.substr(dot) : name;
        if (std::ranges::find(kept, as, &document::SideFile::name) == kept.end()) kept.push_back({as, bytes});
        return as;
    }

    /// The same of a mapping or of facts. What is kept travels with the report: nothing of it may be internal.
    std::string keep_json(const std::string& name, const std::string& sha256, const std::string& bytes) {
        if (request_.keep && input::customer_copy(bytes).left_out > 0) {
            account.not_kept.push_back(name);
            return {};
        }
        return keep(name, sha256, bytes);
    }

private:
    /// Whether another file of that name goes, or lies, beside the document.
    [[nodiscard]] bool holds_other(const std::string& name, const std::string& bytes) const {
        if (const auto there = std::ranges::find(kept, name, &document::SideFile::name); there != kept.end()) return there->bytes != bytes;
        if (const auto named = known_.find(name); named != known_.end() && !named->second.contains(input::sha256_hex(bytes))) return true;
        if (!request_.into || !request_.read_side_file) return false;
        try {
            return request_.read_side_file(name) != bytes;
        } catch (const input::InputMissing&) { return false; }
    }

    void read(const ExportFile& file, const std::vector<const ExportMapping*>& parts) {
        const auto number = static_cast<std::uint16_t>(files.size());
        files.push_back({.name = file.name});
        ExportAccount counts{.file = file.name};
        std::string bytes;
        ExportFile once = file;
        if (request_.keep)
            once.read = [&](const std::function<void(std::string_view)>& take) {
                bytes.clear();
                file.read([&](std::string_view piece) {
                    bytes += piece;
                    take(piece);
                });
            };
        std::string sha256;
        for (const ExportMapping* const part : parts) {
            ExportFaults faults(file.path);
            ExportReader reader(*part, mapping_, {number, file.name, is_sheet_name(file.name)}, faults, collected);
            const std::string found = read_rows(once, {part->dialect, part->sheet}, faults, [&](const Row& row) { reader.row(row); });
            if (!sha256.empty() && found != sha256)
                faults.add(Spot{}, "a file that changes while it is read", "the same bytes at each reading");
            sha256 = found;
            reader.finish();
            counts.rows += reader.rows();
            counts.passed_over += reader.passed_over();
            for (input::Problem& problem : faults.problems()) problems.push_back(std::move(problem));
        }
        counts.sha256 = files.back().sha256 = sha256;
        files.back().kept = keep(file.name, sha256, bytes);
        account.exports.push_back(std::move(counts));
    }

    const GatherRequest& request_;
    const Mapping& mapping_;
    std::map<std::string, std::set<std::string, std::less<>>> known_;  ///< digests of exports that the document names already, by name
};

std::string written_trace(const TraceText& trace) { return "position,value\n" + trace.text; }

Node new_document() { return object_node({named("format", string_node("wayfolio-result")), named("version", number_node("1"))}); }

/// Targets of series that the document has already stand in the place of those that exports name.
void take_targets(Mapping& mapping, const Node& document, const GatherRequest& request) {
    const Node* const all = document.member("series");
    if (all == nullptr) return;
    for (SeriesMapping& series : mapping.series) {
        const std::string id = id_of(series, request.state);
        if (!series.targets.empty() || std::ranges::find(request.replace, id) != request.replace.end()) continue;
        for (const Node& there : all->items) {
            const Node* const targets = there.string("id") == id ? there.member("targets") : nullptr;
            if (targets == nullptr) continue;
            for (const Node& target : targets->items)
                if (const auto number = number_in(target.text, {})) series.targets.push_back(*number);
        }
    }
}

Node document_to_fill(const GatherRequest& request) {
    if (!request.into) return new_document();
    // A plan has series without readings, which no sound document has: what is wrong is told when they have some.
    const input::Json json = input::read_json(request.into->bytes, request.into->file);
    if (!json.problems.empty()) throw input::InputRejected(json.problems);
    if (!json.root.is(input::JsonKind::Object))
        throw input::InputRejected({{request.into->file, {1, 1, {}}, input::describe(json.root), "a result document", {}}});
    return node_of(json.root);
}

void refuse(std::vector<input::Problem> problems) {
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
}

}  // namespace

Gathered gather(const GatherRequest& request) {
    Mapping mapping = read_mapping(request.mapping, request.mapping_file);
    const std::vector<FactsFile> facts = facts_of(request, mapping);
    Node document = document_to_fill(request);
    take_targets(mapping, document, request);
    Gathering gathering(request, mapping, document);
    gathering.problems = faults_of(facts);
    gathering.read_all(/*all_parts=*/true);
    refuse(std::move(gathering.problems));
    const std::string mapping_kept = gathering.keep_json(request.mapping_file, mapping.sha256, std::string(request.mapping));
    const Circumstances at{request, mapping, gathering.files, {request.mapping_file, mapping.sha256, mapping_kept}};
    Assembly assembly = assemble(std::move(document), gathering.collected, at);
    std::vector<NamedFile> named;
    for (const FactsFile& file : facts) {
        const std::string sha256 = input::sha256_hex(file.bytes);
        named.push_back({file.name, sha256, gathering.keep_json(file.name, sha256, file.bytes)});
    }
    take_facts(assembly, facts, named, at);
    refuse(std::move(assembly.problems));
    Gathered gathered{.side_files = std::move(gathering.kept)};
    for (auto& [place, trace] : gathering.collected.traces) gathered.side_files.push_back({trace.source->side_file, written_trace(trace)});
    gathered.account = std::move(assembly.account);
    gathered.account.exports = std::move(gathering.account.exports);
    gathered.account.not_read = std::move(gathering.account.not_read);
    gathered.account.not_kept = std::move(gathering.account.not_kept);
    require_sound(assembly, at, [&](const std::string& name) {
        for (const document::SideFile& file : gathered.side_files)
            if (file.name == name) return file.bytes;
        if (request.read_side_file) return request.read_side_file(name);
        throw input::InputMissing(name, "is not beside the document");
    });
    gathering.collected.series.clear();  // a million readings, which now stand in the assembled document
    gathered.document = written(assembly.document);
    return gathered;
}

document::Series gathered_again(std::string_view mapping_bytes, const std::string& mapping_file, std::vector<ExportFile> exports,
                                const std::string& series) {
    const GatherRequest request{.mapping = mapping_bytes, .mapping_file = mapping_file, .exports = std::move(exports)};
    const Mapping mapping = read_mapping(mapping_bytes, mapping_file);
    Gathering gathering(request, mapping, new_document());
    gathering.read_all(/*all_parts=*/false);
    refuse(std::move(gathering.problems));
    const Circumstances at{request, mapping, gathering.files, {mapping_file, mapping.sha256, {}}};
    Assembly assembly = assemble(new_document(), gathering.collected, at);
    refuse(std::move(assembly.problems));
    Node* const all = assembly.document.member("series");
    if (all != nullptr) std::erase_if(all->items, [&](const Node& one) { return one.string("id") != series; });
    const auto trace = [&](const std::string& name) -> std::string {
        for (const auto& [place, text] : gathering.collected.traces)
            if (text.source->side_file == name) return written_trace(text);
        throw input::InputMissing(name, "is not needed");
    };
    for (Node& one : all == nullptr ? assembly.document.items : all->items)
        std::erase_if(one.items, [](const Node& member) {
            return member.key == "instrument" || member.key == "measurement_line" || member.key == "tolerances";
        });
    return document::read_document(written(assembly.document), mapping_file, trace).series.at(0);
}

std::vector<document::EnvironmentSample> environment_again(std::string_view mapping_bytes, const std::string& mapping_file,
                                                           std::vector<ExportFile> exports) {
    const GatherRequest request{.mapping = mapping_bytes, .mapping_file = mapping_file, .exports = std::move(exports)};
    const Mapping mapping = read_mapping(mapping_bytes, mapping_file);
    Gathering gathering(request, mapping, new_document());
    gathering.read_all(/*all_parts=*/false);
    refuse(std::move(gathering.problems));
    std::vector<document::EnvironmentSample> samples;
    for (const SurroundingsSample& from : gathering.collected.surroundings.samples) {
        document::EnvironmentSample& sample = samples.emplace_back(document::EnvironmentSample{.time = from.time});
        for (const auto& [column, value] : from.values) {
            if (column->key == "machine_C") sample.machine_C.emplace_back(column->sensor, value.value());
            if (column->key == "air_C") sample.air_C = value.value();
            if (column->key == "pressure_hPa") sample.pressure_hPa = value.value();
            if (column->key == "humidity_percent") sample.humidity_percent = value.value();
            if (column->key == "co2_ppm") sample.co2_ppm = value.value();
        }
    }
    return samples;
}

}  // namespace wayfolio::gather
