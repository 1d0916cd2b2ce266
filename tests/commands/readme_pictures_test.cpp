#include "commands/program.hpp"
#include "document/read_document.hpp"
#include "input/digest.hpp"
#include "layouts/layout.hpp"
#include "output/output.hpp"
#include "produce/produce.hpp"
#include "support/few_colours.hpp"
#include "support/frame_parts.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

namespace {

const std::filesystem::path samples = testing::source_folder + "/sample-results", pictures = samples / "pictures";

/// A picture of the README, and what it shows of a sample: a page of the report, or a figure.
struct Picture {
    std::string file, document;
    std::size_t page = 0;
    produce::FigureName figure{};
};

const std::vector<Picture>& shown() {
    static const std::vector<Picture> all{{"answer.png", "short-axis.json", 1},
                                          {"opening.png", "short-axis.json", 2},
                                          {"figure.svg", "rotary-axis.json", 0, {"c-ecc", "error", "Positioning ECC, as found"}}};
    return all;
}

/// Without fingerprint, which every change of the program changes.
frame::Frame frame_of(const Picture& picture) {
    const document::Document document = document::read_document(samples / picture.document);
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("report", "A4");
    const produce::Drawing drawing{document, evaluation, layout, testing::shaper()};
    frame::Frame frame = picture.page > 0 ? produce::report_pages(drawing).at(picture.page - 1) : produce::figure(drawing, picture.figure);
    testing::erase_fingerprints(frame.items);
    return frame;
}

std::string bytes_of(const Picture& picture, const frame::Frame& frame) {
    if (picture.page == 0) return output::svg(frame, {.title = picture.figure.title}, testing::shaper());
    constexpr double as_on_a_screen = 66;
    return testing::with_few_colours(output::png(frame, testing::shaper(), as_on_a_screen));
}

/// What a picture shows and what its file holds: the bytes of a PNG change with the libraries that draw, the page does not.
std::string line_of(const Picture& picture, const frame::Frame& frame) {
    return picture.file + "\n  shows " + input::sha256_hex(frame::dump(frame)) + "\n  holds " +
           input::sha256_hex(support::file_bytes(pictures / picture.file)) + "\n";
}

}  // namespace

TEST_CASE("the pictures of the README show what the program draws: UPDATE_GOLDEN=1 makes them again", "[readme]") {
    std::string drawn;
    for (const Picture& picture : shown()) {
        const frame::Frame frame = frame_of(picture);
        if (std::getenv("UPDATE_GOLDEN")) {
            std::filesystem::create_directories(pictures);
            std::ofstream(pictures / picture.file, std::ios::binary) << bytes_of(picture, frame);
        }
        drawn += line_of(picture, frame);
    }
    if (std::getenv("UPDATE_GOLDEN")) std::ofstream(pictures / "drawn.txt", std::ios::binary) << drawn;
    CHECK(drawn == support::file_bytes(pictures / "drawn.txt"));
}

TEST_CASE("the README shows every picture that is kept for it, each small and with words for who does not see it") {
    const std::string readme = support::file_bytes(testing::source_folder + "/README.md");
    for (const Picture& picture : shown()) {
        CAPTURE(picture.file);
        const std::size_t at = readme.find("](sample-results/pictures/" + picture.file + ")");
        REQUIRE(at != std::string::npos);
        const std::size_t words = readme.rfind("![", at);
        REQUIRE(words != std::string::npos);
        CHECK(at - words > 40);
        constexpr std::uintmax_t most = 60'000;
        CHECK(std::filesystem::file_size(pictures / picture.file) < most);
    }
    const auto kept = std::distance(std::filesystem::directory_iterator(pictures), {});
    CHECK(kept == static_cast<std::ptrdiff_t>(shown().size()) + 1);
}
