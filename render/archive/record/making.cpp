#include "archive/record/making.hpp"

#include "input/json/object_reader.hpp"
#include "input/digest.hpp"
#include "document/read_document.hpp"

#include <algorithm>

namespace wayfolio::archive {
namespace {

using input::ObjectReader;
using input::Value;

[[noreturn]] void reject(const std::string& file, std::string found, std::string expected, std::string hint = {}) {
    throw input::InputRejected({{file, {}, std::move(found), std::move(expected), std::move(hint)}});
}

ListedFile read_listed(const Value& value, input::Faults& faults) {
    ObjectReader reader(value, faults, "a file and its SHA-256");
    ListedFile listed{reader.required_text("file", "the name of a file"), reader.required_text("sha256", "its SHA-256")};
    reader.find("reduced");
    listed.apart = reader.flag("apart").value_or(false);
    reader.finish();
    return listed;
}

std::vector<ListedFile> read_all(ObjectReader& reader, std::string_view key) {
    std::vector<ListedFile> all;
    for (const Value& item : reader.array(key, "an array of files")) all.push_back(read_listed(item, reader.faults()));
    return all;
}

[[noreturn]] void reject_comparison(const std::string& file) {
    throw NotOneResult({{file,
                         {},
                         "a comparison of two results",
                         "a report, a figure or a record of one result",
                         "it carries both documents, wayfolio-old-result.json and wayfolio-new-result.json: extract them (pdfdetach "
                         "-saveall) and compare them again"}});
}

[[noreturn]] void reject_history(const std::string& file) {
    throw NotOneResult({{file,
                         {},
                         "a history of several visits",
                         "a report, a figure or a record of one result",
                         "redraw it from its records with \"wayfolio history\""}});
}

bool is_comparison(const Value& root) {
    const Value* const drawn = root.member("drawn");
    const Value* const what = drawn ? drawn->member("what") : nullptr;
    return what && what->text == "comparison";
}

void read_drawn(const Value& value, Making& making, input::Faults& faults) {
    ObjectReader reader(value, faults, "what was drawn");
    const std::string what = reader.required_text("what", "\"report\" or \"figure\"");
    making.paper = reader.required_text("paper", "the name of a paper");
    making.product = {reader.text("series"), reader.text("figure")};
    if (what != (making.product.is_report() ? "report" : "figure")) faults.add_wrong(value, "a report, or a figure by its name");
    reader.finish();
}

LibraryVersions read_versions(const Value& value, input::Faults& faults) {
    ObjectReader reader(value, faults, "versions by name");
    LibraryVersions versions;
    for (const Value& member : value.items) versions.push_back({std::string(member.key), reader.text(member.key)});
    return versions;
}

void check_format(ObjectReader& reader) {
    const Value* const format = reader.require("format", "\"wayfolio-inputs\"");
    if (format && !(format->is(input::JsonKind::String) && format->text == "wayfolio-inputs"))
        reader.faults().add_wrong(*format, "\"wayfolio-inputs\"");
    const Value* const version = reader.require("version", "1");
    if (version && !(version->is(input::JsonKind::Number) && version->number == 1))
        reader.faults().add_wrong(*version, "1",
                                  version->is(input::JsonKind::Number) && version->number > 1 ? "made by a newer wayfolio" : "");
}

layouts::Layout kept_layout(const Making& making, const std::string& paper) {
    std::vector<std::string> kept;
    for (const ListedFile& one : making.layouts) kept.push_back(bytes_of(making, one.file));
    if (kept.empty()) reject(making.file, "no layout in the list of inputs", "the layout that was used");
    return layouts::read_kept_layout(kept, paper);
}

}  // namespace

Making read_making(Files files, const std::string& file, Apart apart) {
    if (files.contains("wayfolio-history.json")) reject_history(file);
    const auto list = files.find(produce::kept::inputs);
    if (list == files.end())
        reject(file, "no " + std::string(produce::kept::inputs) + " inside", "a PDF or a record that this program made", "");
    Making making{.file = file, .list = list->second, .fingerprint = input::sha256_hex(list->second)};
    const std::string name = file + ": " + list->first;
    const input::Json json = input::read_json(making.list, name);
    if (is_comparison(json.root)) reject_comparison(file);
    input::Faults faults(name, json);
    ObjectReader reader(json.root, faults, "a list of inputs");
    check_format(reader);
    if (const Value* const drawn = reader.require("drawn", "what was drawn")) read_drawn(*drawn, making, faults);
    if (const Value* const document = reader.require("document", "the result document")) making.document = read_listed(*document, faults);
    making.side_files = read_all(reader, "side_files");
    making.layouts = read_all(reader, "layouts");
    making.fonts = read_all(reader, "fonts");
    if (const Value* const versions = reader.require("versions", "versions by name")) making.versions = read_versions(*versions, faults);
    reader.finish();
    faults.reject_if_any();
    making.files = std::move(files);
    making.apart = std::move(apart);
    return making;
}

const std::string& bytes_of(const Making& making, const std::string& name) {
    const auto found = making.files.find(name);
    if (found == making.files.end()) reject(making.file, "no " + name + " inside", "every file that the list of inputs names");
    return found->second;
}

Remade remake(const Making& making, std::optional<layouts::Layout> layout, const std::string& paper) {
    if (!layout) layout = kept_layout(making, paper.empty() ? making.paper : paper);
    const auto inside = [&](const std::string& name) {
        const auto found = making.files.find(name);
        if (found == making.files.end()) throw input::InputMissing(name, "is not inside " + making.file);
        return found->second;
    };
    document::Document document =
        document::read_document(bytes_of(making, making.document.file), making.file + ": " + making.document.file,
                                {inside, [&](const std::string& name) {
                                     const bool apart = making.apart && !making.files.contains(name) &&
                                                        std::ranges::any_of(making.side_files, [&](const ListedFile& listed) {
                                                            return listed.apart && listed.file == name;
                                                        });
                                     return apart ? making.apart(name) : input::source_of(inside(name));
                                 }});
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    return {std::move(document), std::move(evaluation), std::move(*layout)};
}

std::string draw_pdf(const produce::Drawing& drawing, const Making& making) {
    if (making.product.is_report()) return produce::report_pdf(drawing);
    for (const produce::FigureName& figure : produce::figure_names(drawing.document, drawing.evaluation))
        if (figure.series == making.product.series && figure.name == making.product.figure)
            return produce::figure_bytes(drawing, figure, {produce::FigureFormat::Pdf});
    reject(making.file, "a figure \"" + making.product.figure + "\" of series \"" + making.product.series + "\"",
           "a figure that the data support");
}

}  // namespace wayfolio::archive
