#pragma once
#include "document/read_document.hpp"
#include "produce/produce.hpp"
#include "support/frame_parts.hpp"
#include "support/golden.hpp"
#include "support/text_helpers.hpp"

#include <nlohmann/json.hpp>

/// Drawings of documents that a test makes.
namespace wayfolio::testing {

/// A document with all that its drawing refers to.
struct DrawnDocument {
    document::Document document;
    evaluate::Evaluation evaluation;
    layouts::Layout layout = layouts::read_layout("report", "A4");

    explicit DrawnDocument(const nlohmann::json& json)
        : document(document::read_document(json.dump(), "small.json", [](const std::string& name) { return name; })),
          evaluation(evaluate::evaluate(document)) {
        // Wide apart, so that a dump can be read and a reference stays small.
        layout.sizes[layouts::SizeRole::HatchPitch] = units::point(9);
    }

    [[nodiscard]] produce::Drawing drawing() const { return {document, evaluation, layout, shaper(), {{"wayfolio", "test"}}}; }
    [[nodiscard]] const evaluate::SeriesEvaluation& series(const std::string& id) const {
        return *evaluate::find_series(evaluation, id);
    }
    [[nodiscard]] frame::Frame figure(const std::string& series, const std::string& name) const {
        for (const produce::FigureName& one : produce::figure_names(document, evaluation))
            if (one.series == series && one.name == name) return produce::figure(drawing(), one);
        throw std::runtime_error("no figure " + name + " of " + series);
    }
    /// The pages of a report that consists of the layout's blocks of this name only.
    [[nodiscard]] std::vector<frame::Frame> pages(const std::string& block) {
        layout.blocks = {block};
        return produce::report_pages(drawing());
    }
};

}  // namespace wayfolio::testing
