#pragma once
#include "document/document.hpp"
#include "document/read_document.hpp"
#include "gather/exports/read_export.hpp"
#include "gather/facts/facts.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// From exports to a result document, as a mapping says.
namespace wayfolio::gather {

/// A document that readings are added to.
struct Existing {
    std::string bytes, file;
};

struct GatherRequest {
    std::string_view mapping;  ///< its bytes
    std::string mapping_file;  ///< the name used in messages and in the document
    std::vector<ExportFile> exports;
    std::vector<FactsFile> facts;
    std::function<FactsFile(const std::string& name)> read_facts{};  ///< those that the mapping names; it throws input::InputMissing
    std::optional<Existing> into;
    std::string state;                        ///< of series whose mapping names none; it is added to their ids
    std::vector<std::string> replace;         ///< ids of series whose readings may be overwritten
    bool keep = false;                        ///< exports, mapping and facts become side files of the document
    document::SideFileReader read_side_file;  ///< those of the document that is added to; empty where it has none
};

/// What happened to one export.
struct ExportAccount {
    std::string file, sha256;
    std::size_t rows = 0, passed_over = 0;
};

/// What a series got.
struct SeriesAccount {
    std::string id, error, state;
    std::size_t targets = 0, positive_runs = 0, negative_runs = 0;
    std::size_t used = 0, missing = 0, set_aside = 0, samples = 0;
    std::vector<std::string> derived;  ///< what no cell says: plain sentences
};

struct Account {
    std::vector<ExportAccount> exports;
    std::vector<FactsAccount> facts;
    std::vector<SeriesAccount> series;
    std::vector<std::string> waiting;  ///< planned series that have no readings yet
    std::size_t surroundings = 0;
    std::vector<std::string> not_read;  ///< exports that no part of the mapping names
    std::vector<std::string> not_kept;  ///< mapping and facts that hold what is internal
};

struct Gathered {
    std::string document;                        ///< sound: document::read_document() takes it
    std::vector<document::SideFile> side_files;  ///< that go beside it: traces, kept exports, the mapping
    Account account;
};

/// Reads the exports, each once and in pieces, and puts the document together.
/// @throws input::InputRejected with all faults of mapping, exports and what they make, each at its place; input::InputMissing
Gathered gather(const GatherRequest& request);

/// Reads the kept exports of one series of a document again. @returns the series as they give it, its record on the fly, too
/// @throws as gather()
document::Series gathered_again(std::string_view mapping, const std::string& mapping_file, std::vector<ExportFile> exports,
                                const std::string& series);

/// The same of the environment: its samples as the kept exports give them. @throws as gather()
std::vector<document::EnvironmentSample> environment_again(std::string_view mapping, const std::string& mapping_file,
                                                           std::vector<ExportFile> exports);

/// The account as lines for a reader.
std::string account_text(const Account& account);

/// The order of names that people expect: run-2 before run-10.
bool before_by_number(std::string_view a, std::string_view b);

}  // namespace wayfolio::gather
