#include "document/read_document.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "support/all_documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

TEST_CASE("an evaluation and its text are the same to the last byte, however many processors work on them") {
    for (const auto& path : testing::all_documents()) {
        CAPTURE(path);
        const document::Document document = document::read_document(path);
        const std::string alone = evaluate::evaluation_json(document, evaluate::evaluate(document));
        for (const std::size_t processors : {0, 2, 5})
            CHECK(evaluate::evaluation_json(document, evaluate::evaluate(document, processors), processors) == alone);
    }
}
