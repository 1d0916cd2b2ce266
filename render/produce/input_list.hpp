#pragma once
#include "evaluate/written/json_text.hpp"
#include "produce/inputs.hpp"

/// How the list of inputs is written, of which reports, figures, comparisons and histories each have one.
namespace wayfolio::produce {

/// An entry of the list.
evaluate::Json file_json(std::string_view name, const std::string& sha256);
/// The same of a side file that is too large to travel inside: who draws again needs it beside what was drawn.
evaluate::Json apart_json(std::string_view name, const std::string& sha256);

/// The list that begins with `json`; layouts, fonts and versions stand at its end.
InputList input_list(evaluate::Json json, const layouts::Layout& layout, const text::Shaper& shaper, const LibraryVersions& versions);

/// Where there are many that differ in little: such a list as JSON, and its text with the fingerprint.
evaluate::Json ended(evaluate::Json json, const layouts::Layout& layout, const text::Shaper& shaper, const LibraryVersions& versions);
InputList input_list(const evaluate::Json& list);

/// Says in `metadata` by which program and from what a file was made.
void sign(output::Metadata& metadata, const InputList& inputs);

/// What the metadata of an SVG begin with: fingerprint and list.
evaluate::Json signed_json(const InputList& inputs);

output::Attachment list_attachment(const InputList& inputs);

/// Appends the layout, and what it extends, as it was given; then the list itself.
void append_layouts_and_list(std::vector<output::Attachment>& all, const layouts::Layout& layout, const InputList& inputs);

/// Media type by the ending of a file's name (IANA registry).
std::string media_type(std::string_view name);

}  // namespace wayfolio::produce
