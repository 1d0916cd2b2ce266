#include "evaluate/written/evaluation_json.hpp"
#include "document/read_document.hpp"

#include <fmt/format.h>
#include <filesystem>
#include <fstream>

/// evaluation_schema FOLDER RESULT.json...: writes into FOLDER the schema and the evaluation of every document, under its own
/// name.
int main(int count, char** arguments) {
    const std::filesystem::path folder = arguments[1];
    std::ofstream(folder / "evaluation.schema.json") << wayfolio::evaluate::evaluation_schema();
    for (int place = 2; place < count; ++place) {
        const std::filesystem::path file = arguments[place];
        const auto document = wayfolio::document::read_document(file);
        std::ofstream(folder / file.filename()) << evaluation_json(document, wayfolio::evaluate::evaluate(document));
    }
    return 0;
}
