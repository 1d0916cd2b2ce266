#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using Names = std::set<std::string>;

namespace {

/// Outside libraries, by how their includes begin, and the rooms that may know of them.
const std::map<std::string, Names> outside{
    {"nlohmann/", {"evaluate"}},
    {"boost/math/", {"evaluate"}},
    {"boost/random/", {"evaluate"}},
    {"pango/", {"text"}},
    {"fontconfig/", {"text"}},
    {"cairo", {"text", "output"}},
    {"librsvg/", {"output"}},
    {"orcus/", {"sheets"}},
    {"libdeflate.h", {"output"}},
    {"qpdf/", {"output", "archive", "conformance", "unpack"}},
    {"nettle/", {"input"}},
    {"boost/asio/", {"service"}},
    {"boost/beast/", {"service"}},
    {"boost/system/", {"service"}},
    {"sqlite3.h", {"database"}},
    {"expat.h", {"conformance", "output"}},
    {"ft2build.h", {"text", "conformance"}},
    {"CLI/", {"commands", "front"}},
};

const fs::path source_folder = WAYFOLIO_SOURCE_FOLDER;
const fs::path render_folder = source_folder / "render";

struct Include {
    std::string file;  ///< relative to render/
    std::string included;
    bool quoted;
};

std::string text_of(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

std::vector<fs::path> sources_under(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<Include> includes() {
    static const std::regex directive(R"(^\s*#\s*include\s*(["<])([^">]+)[">])");
    std::vector<Include> found;
    for (const fs::path& file : sources_under(render_folder)) {
        std::ifstream stream(file);
        for (std::string line; std::getline(stream, line);)
            if (std::smatch match; std::regex_search(line, match, directive))
                found.push_back({file.lexically_relative(render_folder).string(), match[2], match[1] == "\""});
    }
    return found;
}

std::string room_of(const std::string& path) { return path.substr(0, path.find('/')); }

Names words(const std::string& text) {
    std::istringstream stream(text);
    return {std::istream_iterator<std::string>(stream), std::istream_iterator<std::string>()};
}

std::string joined(const Names& names) {
    std::string text;
    for (const std::string& name : names) text += name + "\n";
    return text;
}

using Graph = std::map<std::string, Names>;

/// The table in CMakeLists.txt: the rooms of render/ and the rooms that each may include from.
Graph stated_uses() {
    const std::string build = text_of(source_folder / "CMakeLists.txt");
    static const std::regex uses_line(R"(set\((\w+)_uses ?([^)]*)\))");
    Graph uses;
    for (std::sregex_iterator match(build.begin(), build.end(), uses_line), end; match != end; ++match)
        uses[(*match)[1]] = words((*match)[2]);
    return uses;
}

/// The same as the sources have it.
Graph real_uses() {
    Graph uses;
    for (const Include& include : includes()) {
        if (!include.quoted || include.included.find('/') == std::string::npos) continue;  // a header that the build generates
        uses[room_of(include.file)];
        if (room_of(include.file) != room_of(include.included)) uses[room_of(include.file)].insert(room_of(include.included));
    }
    return uses;
}

/// The boxes of rooms that have some, lowest first, each with those that it may include from. Where "data" stands, it is the headers at
/// the room's root; the box named as the room is the other files there, which call all. A box uses no more than stands here, and no edge
/// stands here that nothing uses.
const std::map<std::string, Graph> boxes{
    {"evaluate",
     {
         {"numbers", {}},
         {"numbers/spectrum", {"numbers"}},
         {"numbers/trace", {"numbers"}},
         {"data", {"numbers"}},
         {"series", {"data", "numbers"}},
         {"series/geometry", {"data", "numbers", "series"}},
         {"surroundings", {"data", "numbers"}},
         {"trace", {"data", "numbers", "numbers/trace", "series"}},
         {"compensation", {"data", "series"}},
         {"uncertainty", {"data", "numbers", "series", "series/geometry", "surroundings"}},
         {"uncertainty/scatter", {"data", "numbers", "series", "uncertainty"}},
         {"review/conditions", {"data", "series"}},
         {"review/readings", {"data", "numbers", "series", "surroundings"}},
         {"review", {"data", "numbers", "numbers/spectrum", "review/readings", "series", "surroundings"}},
         {"review/site", {"data", "review", "review/readings", "series", "surroundings"}},
         {"written", {"data", "review", "review/site", "series"}},
         {"evaluate",
          {"compensation", "data", "review", "review/conditions", "review/site", "series", "series/geometry", "surroundings", "trace",
           "uncertainty", "uncertainty/scatter"}},
     }},
    {"gather",
     {
         {"draft", {}},
         {"exports", {}},
         {"facts", {"draft"}},
         {"mapping", {"draft", "exports"}},
         {"shapes", {"exports", "mapping"}},
         {"propose", {"draft", "exports", "mapping", "shapes"}},
         {"assemble", {"data", "draft", "facts", "shapes"}},
         {"data", {"exports", "facts"}},
         {"gather", {"assemble", "data", "exports"}},
     }},
    {"report",
     {
         {"model", {}},
         {"words", {"model"}},
         {"words/answer", {"words"}},
         {"words/changes", {"words"}},
         {"words/uncertainty", {"model", "words"}},
         {"blocks/plots", {"model", "words"}},
         {"blocks/tables", {"model", "words", "words/changes", "words/uncertainty"}},
         {"blocks", {"blocks/plots", "blocks/tables", "model", "words"}},
         {"report", {"blocks", "blocks/plots", "blocks/tables", "model", "words"}},
     }},
    {"service",
     {
         {"data", {}},
         {"log", {}},
         {"alone", {}},
         {"awaiting", {}},
         {"door", {"alone", "data"}},
         {"tls", {"awaiting", "door"}},
         {"answers", {"data"}},
         {"description", {"answers"}},
         {"records", {"answers", "log"}},
         {"shown", {"answers"}},
         {"workers", {"alone", "answers", "data"}},
         {"page", {}},
         {"batches", {"answers", "awaiting", "data", "log", "records", "workers"}},
         {"http", {"answers", "awaiting", "batches", "data", "log", "page", "workers"}},
         {"service", {"awaiting", "batches", "data", "door", "http", "log"}},
     }},
};

/// The box of a file in a room that has boxes.
std::string box_of(const std::string& path) {
    const std::string room = room_of(path);
    const fs::path inside = fs::path(path).lexically_relative(room);
    if (inside.has_parent_path()) return inside.parent_path().generic_string();
    return inside.extension() == ".hpp" && boxes.at(room).count("data") > 0 ? "data" : room;
}

Graph real_boxes(const std::string& room) {
    Graph uses;
    for (const Include& include : includes()) {
        if (room_of(include.file) != room) continue;
        const std::string box = box_of(include.file);
        uses[box];
        if (!include.quoted || room_of(include.included) != room) continue;
        if (const std::string used = box_of(include.included); used != box) uses[box].insert(used);
    }
    return uses;
}

std::string edges(const Graph& graph) {
    Names lines;
    for (const auto& [from, all] : graph)
        for (const std::string& to : all) lines.insert(from + " uses " + to);
    return joined(lines);
}

/// A node that can reach itself, if there is one. States: 1 on the way, 2 done.
std::optional<std::string> on_a_cycle(const Graph& graph, const std::string& node, std::map<std::string, int>& state) {
    if (state[node] == 2) return std::nullopt;
    if (state[node] == 1) return node;
    state[node] = 1;
    if (const auto edges = graph.find(node); edges != graph.end())
        for (const std::string& next : edges->second)
            if (auto found = on_a_cycle(graph, next, state)) return found;
    state[node] = 2;
    return std::nullopt;
}

std::optional<std::string> any_cycle(const Graph& graph) {
    std::map<std::string, int> state;
    for (const auto& [node, edges] : graph)
        if (auto found = on_a_cycle(graph, node, state)) return found;
    return std::nullopt;
}

}  // namespace

TEST_CASE("every folder of render that holds sources is a room of the build's table") {
    const Graph uses = stated_uses();
    for (const auto& entry : fs::directory_iterator(render_folder))
        if (entry.is_directory() && !sources_under(entry.path()).empty()) CHECK(uses.count(entry.path().filename().string()) == 1);
}

TEST_CASE("rooms include from just those rooms that the build's table names for them") {
    Graph real = real_uses();
    CHECK(edges({{"main.cpp", real.at("main.cpp")}}) == "main.cpp uses front\n");
    real.erase("main.cpp");
    real.erase("wayfolio.hpp");  // the umbrella header: it shows what is meant for users, and nothing includes it
    CHECK(edges(real) == edges(stated_uses()));
}

TEST_CASE("the boxes of a room include from just those below them, and never in a circle") {
    for (const auto& [room, stated] : boxes) {
        INFO(room);
        const Graph real = real_boxes(room);
        for (const auto& [box, used] : real) CHECK(stated.count(box) == 1);
        CHECK(edges(real) == edges(stated));
        CHECK(any_cycle(stated) == std::nullopt);
    }
}

TEST_CASE("an outside library is known only to its rooms") {
    Names wrong;
    for (const Include& include : includes())
        for (const auto& [library, rooms] : outside)
            if (!include.quoted && include.included.starts_with(library) && rooms.count(room_of(include.file)) == 0)
                wrong.insert(include.file + " includes " + include.included);
    CHECK(joined(wrong) == "");
}

TEST_CASE("no header includes itself in a circle, and no room uses itself in a circle") {
    Graph files;
    for (const Include& include : includes())
        if (include.quoted) files[include.file].insert(include.included);
    CHECK(files.size() > 20);
    CHECK(any_cycle(files) == std::nullopt);
    CHECK(any_cycle(stated_uses()) == std::nullopt);
}

TEST_CASE("a circle is found where there is one") {
    CHECK(any_cycle(Graph{{"a", {"b"}}, {"b", {"c"}}, {"c", {"a"}}}).has_value());
}

TEST_CASE("no folder of render holds more than 22 sources") {
    std::map<std::string, int> held;
    for (const fs::path& file : sources_under(render_folder)) ++held[file.parent_path().lexically_relative(source_folder).string()];
    Names crowded;
    for (const auto& [folder, count] : held)
        if (count > 22) crowded.insert(folder + " holds " + std::to_string(count));
    CHECK(joined(crowded) == "");
}

TEST_CASE("the files that DEVELOPERS.md names are there") {
    const std::string text = text_of(source_folder / "DEVELOPERS.md");
    static const std::regex named(R"(`((?:render|tests)/[\w./]+)`)");
    Names missing;
    std::size_t found = 0;
    for (std::sregex_iterator match(text.begin(), text.end(), named), end; match != end; ++match, ++found)
        if (!fs::exists(source_folder / (*match)[1].str())) missing.insert((*match)[1]);
    CHECK(found > 20);
    CHECK(joined(missing) == "");
}

TEST_CASE("no source file is longer than 330 lines, and no line wider than 140 columns") {
    Names too_long, too_wide;
    for (const char* folder : {"render", "tests"})
        for (const fs::path& file : sources_under(source_folder / folder)) {
            std::ifstream stream(file);
            int lines = 0;
            for (std::string line; std::getline(stream, line);) {
                ++lines;
                const auto continued = [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; };  // of a UTF-8 letter
                const auto columns = line.size() - static_cast<std::size_t>(std::ranges::count_if(line, continued));
                const std::string name = file.lexically_relative(source_folder).string();
                if (columns > 140) too_wide.insert(name + ":" + std::to_string(lines));
                if (lines == 331) too_long.insert(name);
            }
        }
    CHECK(joined(too_long) == "");
    CHECK(joined(too_wide) == "");
}

TEST_CASE("numbers become text in few places, and JSON in one: it is there that what is not finite ends the program") {
    const auto files_with = [](const std::regex& words) {
        Names files;
        for (const fs::path& file : sources_under(render_folder))
            if (std::regex_search(text_of(file), words)) files.insert(file.lexically_relative(render_folder).string());
        return joined(files);
    };
    CHECK(files_with(std::regex(R"(\.dump\()")) == "evaluate/written/json_text.cpp\n");
    CHECK(files_with(std::regex(R"(\bto_chars\()")) == "input/json/value.cpp\nunits/number_text.cpp\nunits/places.cpp\n");
    // A module that speaks C writes dates (whole numbers) and messages into the buffers that it is given.
    CHECK(files_with(std::regex(R"(setprecision|ostringstream|ostream\b|snprintf|sprintf)")) == "sheets/read_sheets.cpp\n");
}
