#include "layouts/layout_draft.hpp"

#include "input/customer_copy.hpp"
#include "input/digest.hpp"
#include "input/json/nearest.hpp"
#include "input/read_file.hpp"
#include "layouts/roles.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <span>
#include <stdexcept>

namespace wayfolio::layouts {
namespace {

namespace fs = std::filesystem;
using input::JsonKind;
using input::ObjectReader;
using input::Value;

constexpr int most_extensions = 8;

/// A layout file and where those that it extends are found: shipped, in its own folder, or kept beside it.
struct Source {
    std::string bytes, file;
    fs::path shipped;
    std::optional<fs::path> folder;  ///< none for bytes from elsewhere
    std::span<const std::string> kept = {};  ///< nearest first; taken whatever the name
};

bool is_layout(const fs::path& file) { return file.extension() == ".json" && file.stem().extension().empty(); }

/// The file of a shipped layout, if there is one of that name.
std::optional<Source> shipped_source(const std::string& name, const fs::path& shipped) {
    const fs::path path = shipped / (name + ".json");
    std::error_code none;
    if (!input::is_plain_file_name(name) || !is_layout(path) || !fs::exists(path, none)) return std::nullopt;
    return Source{input::read_regular_file(path), path.string(), shipped, shipped};
}

/// The layout that `value` names: a shipped one, or a file in the same folder.
std::optional<Source> extended(const Value& value, const Source& by, input::Faults& faults) {
    if (!by.kept.empty()) return Source{by.kept.front(), by.file + ", extended", by.shipped, std::nullopt, by.kept.subspan(1)};
    const std::string name(value.is(JsonKind::String) ? value.text : std::string_view());
    if (auto source = shipped_source(name, by.shipped)) return source;
    std::string missing;
    try {
        if (by.folder && input::is_plain_file_name(name))
            return Source{input::read_file_beside(*by.folder, name), (*by.folder / name).string(), by.shipped, by.folder};
    } catch (const input::InputMissing& file) {
        missing = file.what();
    }
    const auto names = shipped_layouts(by.shipped);
    const std::vector<std::string_view> views(names.begin(), names.end());
    faults.add_wrong(value, "a shipped layout (" + input::listed(views) + ") or a file in the folder of this one",
                     missing.empty() ? input::nearest_hint(name, views) : missing);
    return std::nullopt;
}

void check_format(ObjectReader& reader) {
    reader.text("$schema");  // for editors: it changes nothing
    const Value* const format = reader.require("format", "\"wayfolio-layout\"");
    if (format != nullptr && !(format->is(JsonKind::String) && format->text == "wayfolio-layout"))
        reader.faults().add_wrong(*format, "\"wayfolio-layout\"");
    const Value* const version = reader.require("version", "1");
    if (version == nullptr || (version->is(JsonKind::Number) && version->number == 1)) return;
    const bool newer = version->is(JsonKind::Number) && version->number > 1;
    reader.faults().add_wrong(*version, "1", newer ? "the layout was made for a newer wayfolio" : "");
    if (newer) reader.faults().reject_if_any();
}

/// Every role must have a value, in the file or in one that it extends.
template <class Role, class Said>
void check_roles(const ByRole<Role, std::optional<Said>>& said, std::string_view key, ObjectReader& reader) {
    constexpr const char* hint = "or \"extends\": \"report\", which has them all";
    const auto lacks = [&](const RoleWord<Role>& known) { return !said[known.role]; };
    const Value* const part = reader.value().member(key);
    if (part == nullptr && std::ranges::any_of(role_words<Role>, lacks))
        reader.faults().add_missing(reader.value(), key, "a value for every role", hint);
    if (part == nullptr) return;
    for (const auto& known : role_words<Role>)
        if (lacks(known)) reader.faults().add_missing(*part, known.word, fmt::format("a value for every role of \"{}\"", key), hint);
}

void check_complete(LayoutDraft& draft, const std::string& paper, ObjectReader& reader) {
    Layout& layout = draft.layout;
    check_roles(draft.types, "type", reader);
    check_roles(draft.colours, "colours", reader);
    check_roles(draft.pens, "pens", reader);
    check_roles(draft.sizes, "sizes", reader);
    if (layout.blocks.empty() && reader.value().member("blocks") == nullptr)
        reader.faults().add_missing(reader.value(), "blocks", "the blocks of the report, in their order");
    if (!paper.empty()) layout.paper = paper;
    std::vector<std::string_view> papers;
    for (const PaperGrid& grid : layout.papers) papers.push_back(grid.name);
    if (!reader.faults().any()) {
        check_room(draft, reader);
        check_colours(draft, reader);
        check_house(draft, reader);
    }
    if (std::ranges::find(papers, layout.paper) != papers.end()) return;
    const Value* const written = reader.value().member("paper");
    reader.faults().add(written == nullptr ? reader.value() : *written, "the paper " + input::quoted(layout.paper),
                        "a paper of the layout: " + input::listed(papers), input::nearest_hint(layout.paper, papers));
}

/// Reads `source` over what it extends. The outermost file also has to be complete.
LayoutDraft read_source(const Source& source, const std::string* paper, int depth) {
    const input::Json json = input::read_json(source.bytes, source.file);
    input::Faults faults(source.file, json);
    ObjectReader reader(json.root, faults, "a layout");
    check_format(reader);
    LayoutDraft draft;
    if (const Value* const extends = reader.find("extends")) {
        if (depth == most_extensions) faults.add_wrong(*extends, fmt::format("at most {} layouts that extend each other", most_extensions));
        else if (const auto base = extended(*extends, source, faults)) draft = read_source(*base, nullptr, depth + 1);
    }
    const std::string base_digest = draft.layout.sha256;
    if (!base_digest.empty()) draft.layout.extended.insert(draft.layout.extended.begin(), std::move(draft.layout.bytes));
    read_over(draft, reader);
    reader.finish();
    if (paper != nullptr && !faults.any()) check_complete(draft, *paper, reader);
    faults.reject_if_any();
    // What it marks internal says nothing of the drawing, and a layout goes with every PDF.
    draft.layout.bytes = input::customer_copy(source.bytes).bytes;
    draft.layout.sha256 = input::sha256_hex(draft.layout.bytes + base_digest);
    if (source.folder) draft.layout.files.emplace_back(source.file);
    return draft;
}

/// By now every role has been said.
template <class Role, class Said>
void take_all(ByRole<Role, Said>& into, const ByRole<Role, std::optional<Said>>& said) {
    for (const auto& known : role_words<Role>) into[known.role] = said[known.role].value();
}

Layout complete(const Source& source, const std::string& paper) {
    LayoutDraft draft = read_source(source, &paper, 0);
    Layout& layout = draft.layout;
    take_all(layout.types, draft.types);
    take_all(layout.colours, draft.colours);
    take_all(layout.sizes, draft.sizes);
    for (const auto& known : role_words<PenRole>) {
        const PenDraft& pen = draft.pens[known.role].value();
        const auto* const of_role = std::get_if<ColourRole>(&pen.colour);
        layout.pens[known.role] = {pen.width, of_role != nullptr ? layout.colour(*of_role) : std::get<Colour>(pen.colour), pen.dash};
    }
    return std::move(layout);
}

}  // namespace

std::vector<std::string> shipped_layouts(const fs::path& shipped) {
    std::vector<std::string> names;
    std::error_code failed;
    fs::directory_iterator entries(shipped, failed);
    if (failed) throw input::InputMissing(shipped.string(), "the layouts that come with wayfolio are not there (install it again)");
    for (const auto& entry : entries)
        if (is_layout(entry.path())) names.push_back(entry.path().stem().string());
    std::ranges::sort(names);
    return names;
}

Layout read_layout(const std::string& name_or_path, const std::string& paper, const fs::path& shipped) {
    if (const auto source = shipped_source(name_or_path, shipped)) return complete(*source, paper);
    const fs::path path(name_or_path);
    std::error_code none;
    const bool a_name = path.parent_path().empty() && path.extension().empty() && !fs::exists(path, none);
    if (a_name) {
        const auto names = shipped_layouts(shipped);
        const std::vector<std::string_view> views(names.begin(), names.end());
        const std::string hint = input::nearest_hint(name_or_path, views);
        throw input::InputMissing(name_or_path,
                                  fmt::format("no such layout; shipped are {}{}{}", input::listed(views), hint.empty() ? "" : "; ", hint));
    }
    return complete({input::read_file(path), path.string(), shipped, path.parent_path()}, paper);
}

Layout read_layout_bytes(std::string bytes, const std::string& file, const std::string& paper, const fs::path& shipped) {
    return complete({std::move(bytes), file, shipped, std::nullopt}, paper);
}

Layout read_kept_layout(const std::vector<std::string>& files, const std::string& paper) {
    if (files.empty()) throw std::logic_error("no layout was kept");
    return complete({files.front(), "kept layout", {}, std::nullopt, std::span(files).subspan(1)}, paper);
}

}  // namespace wayfolio::layouts
