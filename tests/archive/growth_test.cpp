#include "archive/drawings.hpp"
#include "produce/figure_maker.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <ctime>

using namespace wayfolio;
using namespace wayfolio::testing;

namespace {

Drawn of_series(int count) {
    small::Json series = small::Json::array();
    for (int i = 0; i < count; ++i) {
        series.push_back(small::x_series());
        series.back()["id"] = "x" + std::to_string(i);
    }
    return Drawn(document_of(small::document(series).dump()));
}

}  // namespace

TEST_CASE("figures that are made after each other are those that are made alone") {
    for (const fs::path& path : {internal, traced, smallest}) {
        const Drawn made(path);
        const auto drawing = made.drawing();
        produce::FigureMaker of_many(drawing);
        for (const auto& figure : produce::figure_names(made.document, made.evaluation))
            for (const auto format : {produce::FigureFormat::Pdf, produce::FigureFormat::Svg, produce::FigureFormat::Png}) {
                CAPTURE(path, figure.series, figure.name);
                CHECK(of_many.bytes(figure, {format}) == produce::figure_bytes(drawing, figure, {format}));
            }
    }
}

TEST_CASE("what a record takes grows as its series do, not with their square", "[slow][again]") {
    const auto seconds = [](int count) {
        const Drawn made = of_series(count);
        const std::clock_t begun = std::clock();
        CHECK(archive::payload_of(made.drawing()).size() > static_cast<std::size_t>(count));
        return static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    };
    // It was 1.7 while each figure made and packed all that it carries.
    const double exponent = std::log(seconds(48) / seconds(12)) / std::log(4.0);
    CHECK(exponent < 1.3);
}
