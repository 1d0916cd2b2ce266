#include "input/encoding.hpp"
#include "produce/logo_fault.hpp"
#include "support/pictures.hpp"

#include <catch2/catch.hpp>
#include <zlib.h>

#include <ctime>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

nlohmann::json job_with_logo(const std::string& bytes, const std::string& type) {
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", {{"laboratory", {{"name", "Example Laboratory"}, {"logo", "data:image/" + type + ";base64," + input::base64(bytes)}}}}},
            {"series",
             {{{"id", "x"},
               {"error", "EXX"},
               {"unit", "um"},
               {"position_unit", "mm"},
               {"targets", {0, 1}},
               {"runs", {{{"approach", "positive"}, {"deviations", {0, 1}}}}}}}}};
}

std::string in_svg(const std::string& inside) {
    return R"(<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 90 40">)" + inside + "</svg>";
}

std::string repeated(const std::string& part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
}

/// Each of a row of elements refers to the one before it twice.
std::string doubling(const std::string& element, const std::string& attribute, int levels) {
    std::string text = "<" + element + R"( id="a0"><rect width="9" height="9"/></)" + element + ">";
    for (int i = 1; i <= levels; ++i) {
        const std::string kid = "<rect width='9' height='9' " + attribute + "='url(#a" + std::to_string(i - 1) + ")'/>";
        text += "<" + element + " id='a" + std::to_string(i) + "'>" + kid + kid + "</" + element + ">";
    }
    return text + "<rect width='9' height='9' " + attribute + "='url(#a" + std::to_string(levels) + ")'/>";
}

std::string big_endian(std::size_t number) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(number >> shift & 0xFF);
    return bytes;
}

std::string chunk(const std::string& type, const std::string& data) {
    const std::string checked = type + data;
    return big_endian(data.size()) + checked +
           big_endian(crc32(0, reinterpret_cast<const Bytef*>(checked.data()), static_cast<uInt>(checked.size())));
}

std::string packed(const std::string& bytes) {
    uLongf size = compressBound(bytes.size());
    std::string made(size, '\0');
    compress(reinterpret_cast<Bytef*>(made.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size());
    made.resize(size);
    return made;
}

/// Black and white, with `more` chunks before its pixels.
std::string png_of(std::size_t width, std::size_t height, const std::string& pixels, const std::string& more = "") {
    return "\x89PNG\r\n\x1a\n" + chunk("IHDR", big_endian(width) + big_endian(height) + std::string("\1\0\0\0\0", 5)) + more +
           chunk("IDAT", pixels) + chunk("IEND", "");
}

std::string found_of(const std::string& bytes, const std::string& type) {
    const DrawnDocument made(job_with_logo(bytes, type));
    const auto faults = produce::logo_faults(made.document);
    return faults.empty() ? "" : faults.at(0).found;
}

}  // namespace

TEST_CASE("a logo that could take time or memory without bound is a fault before it is drawn") {
    const std::clock_t begun = std::clock();  // of the processor: the machine may have other work
    CHECK_THAT(found_of(png_of(20'000, 20'000, packed(std::string(1000, '\0'))), "png"), Contains("20000 by 20000 pixels"));
    const std::string filter = R"(<filter id="f">)" + repeated(R"(<feMorphology radius="30"/>)", 40) + "</filter>";
    CHECK_THAT(found_of(in_svg(filter + repeated("<rect width='90' height='30' filter='url(#f)'/>", 900)), "svg+xml"),
        Contains("<filter>"));
    CHECK_THAT(found_of(in_svg(repeated("<rect width='90' height='30' style='filter: blur(50)'/>", 900)), "svg+xml"), Contains("filter"));
    CHECK_THAT(found_of(in_svg(R"-(<style>rect{f\69lter:blur(50)}</style>)-"), "svg+xml"), Contains("escapes"));
    CHECK_THAT(found_of(in_svg(doubling("mask", "mask", 30)), "svg+xml"), Contains("by its references"));
    CHECK_THAT(found_of(in_svg(doubling("clipPath", "clip-path", 30)), "svg+xml"), Contains("by its references"));
    CHECK_THAT(found_of(in_svg(doubling("pattern", "fill", 10)), "svg+xml"), Contains("<pattern>"));
    CHECK_THAT(found_of(in_svg(R"(<marker id="m"><path d="M0 0L1 1"/></marker>)"), "svg+xml"), Contains("<marker>"));
    CHECK_THAT(found_of(in_svg(R"(<image width="9" height="9" href="data:image/png;base64,AAAA"/>)"), "svg+xml"), Contains("<image>"));
    CHECK_THAT(found_of(in_svg(repeated("<g opacity='.5'>", 3000) + repeated("</g>", 3000)), "svg+xml"), Contains("in each other"));
    CHECK_THAT(found_of(in_svg(repeated("<rect width='9' height='9' opacity='.5'/>", 30'000)), "svg+xml"), Contains("20000 elements"));
    CHECK_THAT(found_of(in_svg("<style>" + repeated("g g g{fill:red}", 30'000) + "</style>" + repeated("<rect/>", 15'000)), "svg+xml"),
               Contains("style sheet"));
    CHECK_THAT(found_of(in_svg("<g opacity='.5'><path d='M0 0" + repeated(" 89 39 0 1", 9'000) + "'/></g>"), "svg+xml"),
        Contains("outlines"));
    CHECK((std::clock() - begun) / CLOCKS_PER_SEC < 10);
}

TEST_CASE("a logo with a word, a name or a comment of any length is drawn: nothing here counts levels by the stack") {
    const std::string long_word(40'000, 'a');  // libxml2 takes names of 50 000 bytes
    CHECK(found_of(in_svg("<!-- opa" + long_word + " --><rect width='9' height='9'/>"), "svg+xml").empty());
    CHECK(found_of(in_svg("<" + long_word + "/><rect width='9' height='9'/>"), "svg+xml").empty());
    CHECK(found_of(in_svg("<rect width='9' height='9' style='filter:none;fill-opacity:1'/>"), "svg+xml").empty());
}

TEST_CASE("texts and profiles in a PNG are not unpacked, whatever they hold") {
    const std::string bomb = chunk("zTXt", std::string("k\0\0", 3) + packed(std::string(7'900'000, 'a')));
    CHECK(found_of(png_of(8, 8, packed(std::string(16, '\0')), repeated(bomb, 50)), "png").empty());
}

TEST_CASE("a broken logo is one fault with file, line and pointer, for the check as for the report") {
    const std::string sound = png_of(8, 8, packed(std::string(16, '\0')));
    REQUIRE(found_of(sound, "png").empty());
    for (const auto& [bytes, type, found] : std::vector<std::array<std::string, 3>>{
             {sound.substr(0, 50), "png", "cut off"},
             {png_of(8, 8, "no pixels"), "png", "pixels are damaged"},
             {"\x89PNG\r\n\x1a\n", "png", "without its head"},
             {"<svg", "svg+xml", "not well-formed: line 1, column 1"},
             {R"(<svg xmlns="http://www.w3.org/2000/svg" width="0" height="0"/>)", "svg+xml", "neither a size nor a view box"},
             {R"(<svg xmlns="http://www.w3.org/2000/svg" width="1e-30" height="1e30"/>)", "svg+xml", "a thousand times"}}) {
        const DrawnDocument made(job_with_logo(bytes, type));
        const auto faults = produce::logo_faults(made.document);
        REQUIRE(faults.size() == 1);
        CHECK_THAT(faults[0].found, Contains(found));
        CHECK(faults[0].place.pointer == "/job/laboratory/logo");
        CHECK(faults[0].place.line == 1);
        CHECK_FALSE(faults[0].expected.empty());
        try {
            produce::report_pdf(made.drawing());
            FAIL("drawn");
        } catch (const input::InputRejected& rejected) {
            CHECK(rejected.problems().at(0).found == faults[0].found);
        }
    }
}
