#pragma once
#include "gather/draft/node.hpp"
#include "gather/facts/merge_facts.hpp"
#include "gather/gather.hpp"
#include "gather/shapes/export_reader.hpp"

#include <map>
#include <string>
#include <vector>

/// From what was collected to a document. Private to gather().
namespace wayfolio::gather {

/// A file that was read, as the document names it.
struct NamedFile {
    std::string name, sha256, kept;  ///< kept: the side file that holds it, "" for none
};

/// A series of the document that readings went into, so that its faults are told where they stand.
struct FilledSeries {
    std::size_t place = 0;  ///< in the document
    const SeriesCollector* from = nullptr;
    std::vector<std::size_t> targets;  ///< the collector's place of each target of the document
    std::vector<std::size_t> runs;     ///< the collector's place of each run of the document
    /// By run: whether it is nothing but an approach and numbers that every document takes. One such run is as sound as another.
    std::vector<bool> regular;
};

struct Assembly {
    Node document;
    std::vector<FilledSeries> filled;
    Sources from_facts;
    std::vector<input::Problem> problems;
    Account account;
};

/// What assembling needs besides the readings.
struct Circumstances {
    const GatherRequest& request;
    const Mapping& mapping;
    const std::vector<NamedFile>& files;
    NamedFile mapping_file;
};

/// Puts readings, traces and environment into the document, or into a new one.
Assembly assemble(Node document, const Collected& collected, const Circumstances& at);

/// The files of facts that the request and the mapping name, each once.
/// @throws input::InputRejected where one that the mapping names is not there
std::vector<FactsFile> facts_of(const GatherRequest& request, const Mapping& mapping);

/// Merges them into the assembled document, which names them.
void take_facts(Assembly& assembly, const std::vector<FactsFile>& files, const std::vector<NamedFile>& named, const Circumstances& at);

/// One series: head members, targets and runs. Fills `filled` and `account`.
void fill_readings(Node& series, const SeriesCollector& from, FilledSeries& filled, SeriesAccount& account);

Node file_node(const NamedFile& file);
Node origin_node(const std::vector<std::uint16_t>& files, const std::string& series, const Circumstances& at);

/// The id and state that a series of the mapping gets in the document.
std::string id_of(const SeriesMapping& series, const std::string& state);
std::string state_of(const SeriesMapping& series, const std::string& state);

/// What was made must be a document that the reader takes. Runs of a large series are given to it a part at a time: it holds each number
/// with its place, ten times what the number itself takes.
/// @throws input::InputRejected with the faults where they come from
void require_sound(Assembly& assembly, const Circumstances& at, const document::SideFileReader& beside);

/// Faults of the gathered document, each moved to the export or the mapping that it comes from.
std::vector<input::Problem> at_their_sources(std::vector<input::Problem> problems, const Assembly& assembly, const Circumstances& at);

}  // namespace wayfolio::gather
