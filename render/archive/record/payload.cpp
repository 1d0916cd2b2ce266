#include "archive/record/record.hpp"
#include "evaluate/written/compensation_text.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "input/read_file.hpp"
#include "output/output.hpp"
#include "produce/figure_maker.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace wayfolio::archive {
namespace {

std::string in_lower_case(std::string name) {
    std::ranges::transform(name, name.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c; });
    return name;
}

/// A part of a file name from a name that may hold anything.
std::string file_part(std::string_view name) {
    std::string part;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
        part += plain ? c : '-';
    }
    constexpr std::size_t longest = 60;
    return part.substr(0, longest);
}

void add_inputs(Files& payload, const produce::Drawing& drawing) {
    const std::string folder = "inputs/";
    for (output::Attachment& file : produce::attachments_of(drawing, produce::inputs_of(drawing, {})))
        if (file.relationship != output::Relationship::Data) payload[folder + file.name] = std::move(file.bytes);
    payload[folder + std::string(produce::kept::document)] = drawing.document.bytes;  // as given: a record stays with who made it
    std::set<std::string> names;
    const auto require_safe = [&](const std::string& name) {
        if (is_safe_name(name) && names.insert(in_lower_case(name)).second) return;
        throw input::InputRejected({{drawing.document.file,
                                     {},
                                     "the side file " + name,
                                     "a name that every file system can hold, in which more than upper and lower case differs from "
                                     "the others",
                                     "name the file anew"}});
    };
    for (const auto& file : drawing.document.side_files) require_safe(file.name);
    for (const auto& file : drawing.document.large_side_files) require_safe(file.name);
}

void add_figures(Files& payload, const produce::Drawing& drawing) {
    std::size_t number = 0;
    produce::FigureMaker maker(drawing);
    for (const produce::FigureName& figure : produce::figure_names(drawing.document, drawing.evaluation)) {
        const std::string name = fmt::format("figures/{:02}-{}{}{}", ++number, file_part(figure.series), figure.series.empty() ? "" : "-",
                                             file_part(figure.name));
        payload[name + ".svg"] = maker.bytes(figure, {produce::FigureFormat::Svg});
        payload[name + ".pdf"] = maker.bytes(figure, {produce::FigureFormat::Pdf});
    }
}

void add_compensation(Files& payload, const produce::Drawing& drawing) {
    std::size_t number = 0;
    for (const auto& table : drawing.evaluation.compensation) {
        const std::string name = fmt::format("compensation/{:02}-{}-{}", ++number, file_part(table.axis), file_part(table.series));
        payload[name + ".csv"] = evaluate::compensation_csv(table, drawing.document);
        payload[name + ".json"] = evaluate::compensation_json_file(table, drawing.document);
    }
}

}  // namespace

LargeFiles large_payload_of(const produce::Drawing& drawing) {
    LargeFiles files;
    for (const auto& file : drawing.document.large_side_files) files.emplace("inputs/" + file.name, file.source);
    return files;
}

Files payload_of(const produce::Drawing& drawing) {
    Files payload;
    add_inputs(payload, drawing);
    for (const auto& font : drawing.shaper.fonts())
        payload["fonts/" + font.file] = input::read_regular_file(drawing.shaper.font_folder() / font.file);
    payload["evaluation.json"] = evaluate::evaluation_json(drawing.document, drawing.evaluation);
    if (auto draft = produce::certificate_attachment(drawing)) payload["certificate-draft.xml"] = std::move(draft->bytes);
    payload["report.pdf"] = produce::report_pdf(drawing);
    add_figures(payload, drawing);
    add_compensation(payload, drawing);
    payload["ro-crate-metadata.json"] = crate_metadata(drawing, payload, produce::inputs_of(drawing, {}).fingerprint);
    return payload;
}

}  // namespace wayfolio::archive
