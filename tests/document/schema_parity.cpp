#include "gather/mapping/mapping.hpp"
#include "input/problem.hpp"
#include "input/read_file.hpp"
#include "layouts/layout.hpp"
#include "document/facts.hpp"
#include "document/read_document.hpp"

#include <cstdio>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <string>

namespace {

/// Prints one line per file: accept, or reject with the pointers of all faults, separated by tabs.
std::string verdict(const std::string& kind, const std::filesystem::path& file) {
    try {
        if (kind == "layout") (void)wayfolio::layouts::read_layout(file.string(), "");
        else if (kind == "facts") {
            const auto beside = [&](const std::string& name) { return wayfolio::input::read_file_beside(file.parent_path(), name); };
            (void)wayfolio::document::read_facts(wayfolio::input::read_file(file), file.string(), beside);
        } else if (kind == "mapping") (void)wayfolio::gather::read_mapping(wayfolio::input::read_file(file), file.string());
        else (void)wayfolio::document::read_document(file);
        return "accept";
    } catch (const wayfolio::input::InputRejected& rejected) {
        std::string line = "reject";
        for (const auto& problem : rejected.problems()) line += "\t" + problem.place.pointer;
        return line;
    }
}

}  // namespace

/// schema_parity schema FOLDER: writes the schemas there. schema_parity document|facts|layout|mapping FILE...: says what the reader says.
int main(int count, char** arguments) {
    const std::string kind = count > 1 ? arguments[1] : "";
    if (kind == "schema") {
        const std::filesystem::path folder = arguments[2];
        std::ofstream(folder / "document.schema.json") << wayfolio::document::document_schema();
        std::ofstream(folder / "facts.schema.json") << wayfolio::document::facts_schema();
        std::ofstream(folder / "mapping.schema.json") << wayfolio::gather::mapping_schema();
        std::ofstream(folder / "layout.schema.json") << wayfolio::layouts::layout_schema();
        return 0;
    }
    for (int place = 2; place < count; ++place) fmt::print("{}\n", verdict(kind, arguments[place]));
    return 0;
}
