#pragma once
#include "gather/draft/node.hpp"
#include "gather/facts/facts.hpp"
#include "input/problem.hpp"

#include <functional>
#include <map>
#include <string>
#include <vector>

/// Facts into a document: for gather() and for plans.
namespace wayfolio::gather {

/// Where a value stands.
struct Source {
    std::string file;
    input::Place place;
};

/// Places by JSON Pointers in the document.
using Sources = std::map<std::string, Source, std::less<>>;

struct MergedFacts {
    Sources sources;  ///< of what went in
    std::vector<input::Problem> problems;
    std::vector<FactsAccount> accounts;
};

/// Merges facts into a document. Objects are joined key by key; lists by what names their items: instruments by id, axes and contributors
/// by name, people by role and name, checks by name, axis and position, capability by error and parameter, limits by parameter and length;
/// remarks, agreements and errors are added where they are missing. All else is one value, and another value for it is a fault that names
/// both places. Contributors and limits go in for the errors that the document has series of.
/// @param place_in_document where a value stands that was in the document before
/// @param files without faults
MergedFacts merge_facts(Node& document, const std::vector<FactsFile>& files,
                        const std::function<Source(const std::string& pointer)>& place_in_document);

/// The faults of files of facts, each by itself.
std::vector<input::Problem> faults_of(const std::vector<FactsFile>& files);

/// The source of a value or, where it is missing, of what it should stand in; nullptr for what no facts gave.
const Source* source_of(const Sources& sources, std::string_view pointer);

}  // namespace wayfolio::gather
