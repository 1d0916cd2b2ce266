#include "conformance/conformance.hpp"
#include "support/hostile_pdf.hpp"

#include <catch2/catch.hpp>

#include <ctime>

using namespace wayfolio;
using namespace wayfolio::support;

namespace {

std::string told(const std::string& pdf) {
    std::string text;
    for (const auto& fault : conformance::faults_of(pdf)) text += fault.rule + ": " + fault.where + ": " + fault.what + "\n";
    return text;
}

}  // namespace

TEST_CASE("a PDF that unpacks to any size, leads in circles or names a page thousands of times is told from, in bounded time", "[again]") {
    const std::clock_t begun = std::clock();  // of the processor: the machine may have other work
    using Catch::Matchers::Contains;
    CHECK_THAT(told(with_content(packed_twice(4'000'000'000), "[/FlateDecode /FlateDecode]")), Contains("unpack to more than"));
    CHECK_THAT(told(with_content_named(20'000)), Contains("unpack to more than"));
    CHECK_THAT(told(with_pages(50'000)), Contains("unpack to more than"));
    CHECK_THAT(told(with_structure("/K [7 0 R 7 0 R]", "/S /P /P 7 0 R /K [7 0 R 7 0 R 7 0 R]")),
        Contains("stands in the structure twice"));
    CHECK_THAT(told(with_structure("/K [7 0 R << /Type /MCR /Pg 3 0 R /MCID 0 >>]", "/S /Document /P 6 0 R")), Contains("in the root"));
    CHECK_FALSE(told(with_outline("/First 9 0 R /Next 9 0 R")).empty());
    CHECK_THAT(told(with_unicode_map("10000 beginbfrange " + support::repeated("<0000> <FFFF> <0041> ", 10'000) + "endbfrange")),
               Contains("more than a font can hold"));
    CHECK_FALSE(told(with_content(deflated(support::repeated("/P BMC ", 60'000) + support::repeated("0 0 m S ", 1'000)),
        "/FlateDecode")).empty());
    CHECK((std::clock() - begun) / CLOCKS_PER_SEC < 60);  // all of them together, with sanitizers
}

TEST_CASE("a stream that does not lie where the file says ends the search for it at the next object") {
    std::string pdf = pdf_of({{5, stream_of(std::string(200, '('), "")}});  // a string without end, to whoever begins to read in it
    const std::string place = std::to_string(pdf.find("5 0 obj")), wrong = std::to_string(pdf.find("5 0 obj") + 100);
    const auto entry = [](const std::string& at) { return std::string(10 - at.size(), '0') + at + " 00000 n"; };
    REQUIRE(pdf.find(entry(place)) != std::string::npos);
    pdf.replace(pdf.find(entry(place)), entry(place).size(), entry(wrong));
    CHECK_THAT(told(pdf), Catch::Matchers::Contains("object 5: no line end after stream"));
}

TEST_CASE("what is no PDF at all is told so, and damage to one in its reader's words") {
    for (const char* text : {"", "{\"format\": \"wayfolio-result\"}", "\x89PNG\r\n"})
        CHECK(told(text) == "file-syntax: file: no %PDF- at its beginning: this is no PDF\n");
    const std::string cut = told("%PDF-1.7\nnothing more");
    CHECK(cut.find("file-syntax") == 0);
    CHECK(cut.find("no PDF") == std::string::npos);
}
