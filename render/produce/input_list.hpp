#pragma once
#include "evaluate/written/json_text.hpp"
#include "produce/produce.hpp"

/// Parts of the list of inputs, which reports, figures and comparisons share.
namespace wayfolio::produce {

evaluate::Json file_json(std::string_view name, const std::string& sha256);
evaluate::Json layouts_json(const layouts::Layout& layout);
evaluate::Json fonts_json(const text::Shaper& shaper);
evaluate::Json versions_json(const LibraryVersions& versions);

/// "wayfolio-result.json sha256:…; cairo 1.16.0": the list in one line, for readers of metadata.
std::string source_line(const evaluate::Json& list);

/// Media type by the ending of a file's name (IANA registry).
std::string media_type(std::string_view name);

}  // namespace wayfolio::produce
