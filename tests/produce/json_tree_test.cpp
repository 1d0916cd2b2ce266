#include "produce/json_tree.hpp"

#include "document/read_document.hpp"
#include "evaluate/written/json_lines.hpp"
#include "evaluate/written/json_parts.hpp"
#include "support/all_documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

TEST_CASE("a series told to a tree is written as the same series told to a text") {
    for (const auto& path : testing::documents_in({"sample-results"})) {
        const evaluate::Evaluation evaluation = evaluate::evaluate(document::read_document(path));
        for (const auto& series : evaluation.series) {
            CAPTURE(path, series.id);
            produce::JsonTree tree;
            evaluate::JsonLines lines;
            evaluate::write_series(tree, series, evaluation);
            evaluate::write_series(lines, series, evaluation);
            CHECK(evaluate::to_text(std::move(tree).taken()) == std::move(lines).taken() + "\n");
        }
    }
}
