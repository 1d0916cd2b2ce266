#pragma once
#include "document/document.hpp"
#include "document/read_document.hpp"

#include <string>
#include <string_view>
#include <vector>

/// What is the same from job to job, written once: a partial result document with limits.
namespace wayfolio::document {

/// Limits of one error, whichever series measures it.
struct Limits {
    ErrorSymbol error;
    std::string machine_kind;  ///< of machines of this kind alone; empty: of any
    std::vector<Tolerance> tolerances;
};

struct Facts {
    Document document;  ///< without series
    std::vector<Limits> limits;
};

/// Reads facts: what a result document may say but for its readings and what needs them.
/// @param read_side_file gives the bytes of a file beside the facts (a logo), or throws input::InputMissing
/// @throws input::InputRejected with every fault found
Facts read_facts(std::string bytes, std::string file, const SideFileReader& read_side_file);

/// The JSON Schema (draft-07 vocabulary) of facts, as text. It refers to that of the result document, result.schema.json.
std::string_view facts_schema();

inline constexpr std::string_view facts_format = "wayfolio-facts";

}  // namespace wayfolio::document
