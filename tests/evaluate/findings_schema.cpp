#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "document/read_document.hpp"

#include <filesystem>
#include <fstream>

namespace {

using namespace wayfolio;

evaluate::Findings findings_of(const std::filesystem::path& file) {
    try {
        const document::Document document = document::read_document(file);
        return evaluate::findings(document, evaluate::evaluate(document));
    } catch (const input::InputRejected& rejected) {
        return {.file = file.string(), .faults = rejected.problems(), .warnings = {}, .lacking = {}, .supports = {}};
    }
}

}  // namespace

/// findings_schema FOLDER RESULT.json...: writes into FOLDER the schema, every known code (one a line) and the findings of every
/// document, under its own name.
int main(int count, char** arguments) {
    const std::filesystem::path folder = arguments[1];
    std::ofstream(folder / "findings.schema.json") << evaluate::findings_schema();
    std::ofstream codes(folder / "codes.txt");
    for (const auto& known : evaluate::known_findings()) codes << known.word << "\n";
    for (int place = 2; place < count; ++place) {
        const std::filesystem::path file = arguments[place];
        std::ofstream(folder / file.filename()) << evaluate::findings_json(findings_of(file));
    }
    return 0;
}
