#include "gather/assemble/assembly.hpp"

#include "gather/draft/document_order.hpp"

#include <algorithm>
#include <charconv>

namespace wayfolio::gather {
namespace {

/// Where values stood before facts came: in the document that is added to, or in the mapping, which heads the series that it fills.
class PlacesBefore {
public:
    PlacesBefore(const Assembly& assembly, const Circumstances& at) : assembly_(assembly), at_(at) {}

    Source operator()(const std::string& pointer) const {
        if (const auto in_mapping = mapping_pointer(pointer)) return place_in(at_.request.mapping_file, at_.request.mapping, *in_mapping);
        if (at_.request.into) return place_in(at_.request.into->file, at_.request.into->bytes, pointer);
        return {"the gathered document", {0, 0, pointer}};
    }

private:
    static Source place_in(const std::string& file, std::string_view bytes, const std::string& pointer) {
        const input::Json json = input::read_json(bytes, file);
        const input::Value* const value = input::value_at(json.root, pointer);
        return {file, value == nullptr ? input::Place{0, 0, pointer} : input::Place{value->line, value->column, pointer}};
    }

    [[nodiscard]] std::optional<std::string> mapping_pointer(std::string_view pointer) const {
        constexpr std::string_view series = "/series/";
        if (!pointer.starts_with(series)) return std::nullopt;
        pointer.remove_prefix(series.size());
        std::size_t place = 0;
        std::from_chars(pointer.data(), pointer.data() + pointer.size(), place);
        const auto filled = std::ranges::find(assembly_.filled, place, &FilledSeries::place);
        if (filled == assembly_.filled.end()) return std::nullopt;
        const std::string_view rest = pointer.substr(std::min(pointer.find('/'), pointer.size()));
        const SeriesMapping& mapping = filled->from->mapping();
        const std::string_view key = rest.empty() ? rest : rest.substr(1, rest.find('/', 1) - 1);
        return mapping.members.member(key) == nullptr ? std::nullopt : std::optional(mapping.place.pointer + std::string(rest));
    }

    const Assembly& assembly_;
    const Circumstances& at_;
};

bool is_there(const std::vector<FactsFile>& files, const FactsFile& file) {
    return std::ranges::any_of(files, [&](const FactsFile& one) { return one.name == file.name && one.bytes == file.bytes; });
}

/// What went in before stays named; the same file says nothing new.
void name_facts(Node& document, const std::vector<NamedFile>& named) {
    std::vector<Node> files;
    if (const Node* const before = document.member("facts")) files = before->items;
    for (const NamedFile& file : named) {
        const auto same = [&](const Node& one) { return one.string("file") == file.name && one.string("sha256") == file.sha256; };
        const auto there = std::ranges::find_if(files, same);
        if (there == files.end())
            files.push_back(file_node(file));
        else if (!file.kept.empty())
            *there = file_node(file);
    }
    document.set("facts", array_node(std::move(files)), document_keys);
}

}  // namespace

std::vector<FactsFile> facts_of(const GatherRequest& request, const Mapping& mapping) {
    std::vector<FactsFile> files;
    std::vector<input::Problem> problems;
    for (const NamedFacts& named : mapping.facts) {
        try {
            if (!request.read_facts) throw input::InputMissing(named.file, "cannot be had here");
            FactsFile file = request.read_facts(named.file);
            if (!is_there(files, file)) files.push_back(std::move(file));
        } catch (const input::InputMissing& missing) {
            problems.push_back({mapping.file, named.place, input::quoted(named.file), "the name of a file of facts, seen from the mapping",
                                missing.what()});
        }
    }
    if (!problems.empty()) throw input::InputRejected(std::move(problems));
    for (const FactsFile& file : request.facts)
        if (!is_there(files, file)) files.push_back(file);
    return files;
}

void take_facts(Assembly& assembly, const std::vector<FactsFile>& files, const std::vector<NamedFile>& named, const Circumstances& at) {
    if (files.empty()) return;
    MergedFacts merged = merge_facts(assembly.document, files, PlacesBefore(assembly, at));
    name_facts(assembly.document, named);
    assembly.from_facts = std::move(merged.sources);
    assembly.account.facts = std::move(merged.accounts);
    assembly.problems.insert(assembly.problems.end(), merged.problems.begin(), merged.problems.end());
}

}  // namespace wayfolio::gather
