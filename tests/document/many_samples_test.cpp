#include "document/reading_help.hpp"
#include "input/digest.hpp"
#include "support/run.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <bit>

/// Traces of more samples than are held: they are walked through, as often as asked for.
using namespace wayfolio;
using namespace wayfolio::document;

namespace {

const std::string text_document = one_series(R"("error": "EYX", "unit": "um", "position_unit": "mm", "trace": {"file": "t.csv"})");
const std::string npy_document = one_series(R"("error": "EYX", "unit": "um", "position_unit": "mm", "trace": {"file": "t.npy"})");
constexpr int many = 100'001;

double place_of(int sample) { return sample / 64.0; }
double value_of(int sample) { return (sample % 4001) / 16.0 - 125; }

std::string text_of(int samples) {
    std::string text = "position;value\n";
    for (int i = 0; i < samples; ++i) text += fmt::format("{};{}\n", place_of(i), value_of(i));
    return text;
}

/// Little-endian doubles, as NumPy writes them on the machines that this runs on.
std::string npy_of(int samples, bool by_columns) {
    std::string header =
        fmt::format("{{'descr': '<f8', 'fortran_order': {}, 'shape': ({}, 2), }}\n", by_columns ? "True" : "False", samples);
    std::string bytes = std::string("\x93NUMPY\x01\x00", 8) + static_cast<char>(header.size()) + '\0' + header;
    const auto put = [&](double number) {
        const auto bits = std::bit_cast<std::uint64_t>(number);
        for (int byte = 0; byte < 8; ++byte) bytes += static_cast<char>(bits >> (8 * byte) & 0xFFU);
    };
    if (by_columns) {
        for (int i = 0; i < samples; ++i) put(place_of(i));
        for (int i = 0; i < samples; ++i) put(value_of(i));
    } else {
        for (int i = 0; i < samples; ++i) put(place_of(i)), put(value_of(i));
    }
    return bytes;
}

/// Whether a walk gives the samples that were written.
bool walks_all(const Trace& trace, int samples) {
    int next = 0;
    bool same = true;
    trace.walk([&](std::span<const TraceSample> some) {
        for (const TraceSample& sample : some) {
            same = same && sample.position.in(units::position_millimetre) == place_of(next) &&
                   sample.value.in(units::micrometre) == value_of(next);
            ++next;
        }
    });
    return same && next == samples;
}

/// A source that makes its bytes when they are asked for.
SideFileReader made(std::string name, std::size_t size, std::function<char(std::size_t)> byte_at) {
    return {[](const std::string& asked) -> std::string { throw input::InputMissing(asked, "is never held"); },
            [=](const std::string& asked) {
                if (asked != name) throw input::InputMissing(asked, "is not there");
                return input::ByteSource{size, [=](std::size_t place, std::span<char> into) {
                                             const std::size_t count = place < size ? std::min(into.size(), size - place) : 0;
                                             for (std::size_t i = 0; i < count; ++i) into[i] = byte_at(place + i);
                                             return count;
                                         }};
            }};
}

}  // namespace

TEST_CASE("more samples than are held are walked through again, from text and from both orders of an array") {
    for (const auto& [head, name, bytes] :
         {std::tuple(text_document, "t.csv", text_of(many)), std::tuple(npy_document, "t.npy", npy_of(many, false)),
          std::tuple(npy_document, "t.npy", npy_of(many, true))}) {
        const Document document = read_text(head, {{name, bytes}});
        const Trace& trace = *document.series[0].trace;
        CHECK(trace.samples.empty());
        REQUIRE(trace.many);
        CHECK(trace.count() == many);
        CHECK(trace.many->low.in(units::position_millimetre) == 0);
        CHECK(trace.many->high.in(units::position_millimetre) == place_of(many - 1));
        CHECK(trace.many->begin.size() == 1000);
        CHECK(trace.many->sha256 == input::sha256_hex(bytes));
        CHECK(walks_all(trace, many));
        CHECK(walks_all(trace, many));
        CHECK(document.side_files.size() == 1);  // few bytes: they travel with the document
        CHECK(document.large_side_files.empty());
    }
}

TEST_CASE("a sample that is wrong is told by its line, however far it stands behind those that are held") {
    std::string text = text_of(many);
    text += "7,x\n2e6,1\n";
    const auto faults = faults_of(text_document, {{"t.csv", text}});
    REQUIRE(faults.size() == 2);
    CHECK(faults[0] == "t.csv:100003:3: found \"x\"; expected a value after the position: a number with a decimal point");
    CHECK(faults[1] == "t.csv:100004:1: found 2000000; expected a position in mm, of at most 1 000 000 in size (1 km)");
}

TEST_CASE("a file too large to be held is known by its digest, and only its samples are read") {
    // 2 000 000 lines of 8 bytes.
    const std::string line = "12.5,-3\n";
    const std::size_t size = 2'000'000 * line.size();
    const Document document = read_document(text_document, "job.json", made("t.csv", size, [=](std::size_t at) { return line[at % 8]; }));
    CHECK(document.side_files.empty());
    REQUIRE(document.large_side_files.size() == 1);
    std::string whole;
    for (int i = 0; i < 2'000'000; ++i) whole += line;
    CHECK(document.large_side_files[0].sha256 == input::sha256_hex(whole));
    CHECK(document.series[0].trace->count() == 2'000'000);
}

TEST_CASE("a line that never ends is told, not held") {
    const std::size_t size = std::size_t{40} << 20;
    try {
        (void)read_document(text_document, "job.json", made("t.csv", size, [](std::size_t) { return '1'; }));
        FAIL("it was read");
    } catch (const input::InputRejected& rejected) {
        CHECK(input::to_text(rejected.problems().at(0)) ==
              "t.csv:1:1: found a line of more than 65536 bytes; expected two columns, position and value");
    }
}

TEST_CASE("an array of more samples than a file may have is refused before they are read") {
    std::string header = "{'descr': '<f4', 'fortran_order': False, 'shape': (100000001, 2), }\n";
    const std::string head = std::string("\x93NUMPY\x01\x00", 8) + static_cast<char>(header.size()) + '\0' + header;
    const std::size_t size = head.size() + std::size_t{8} * 100'000'001;
    std::size_t most = 0;
    const SideFileReader reader{[](const std::string& asked) -> std::string { throw input::InputMissing(asked, "is never held"); },
                                [&](const std::string&) {
                                    return input::ByteSource{size, [&](std::size_t place, std::span<char> into) -> std::size_t {
                                                                 if (place >= head.size()) {
                                                                     most = std::max(most, into.size());
                                                                     return place < size ? std::min(into.size(), size - place) : 0;
                                                                 }
                                                                 return head.copy(into.data(), into.size(), place);
                                                             }};
                                }};
    try {
        (void)read_document(npy_document, "job.json", reader);
        FAIL("it was read");
    } catch (const input::InputRejected& rejected) {
        CHECK(input::to_text(rejected.problems().at(0)) == "t.npy: found 100000001 samples; expected at most 100000000");
    }
    CHECK(most <= 65'536);
}

TEST_CASE("a file that is changed while its samples are walked through is told") {
    const support::TemporaryFolder temporary;
    const std::filesystem::path& folder = temporary.path();
    std::ofstream(folder / "t.csv", std::ios::binary) << text_of(1'000'000);
    std::ofstream(folder / "job.json", std::ios::binary) << text_document;
    const Document document = read_document(folder / "job.json");
    CHECK(walks_all(*document.series[0].trace, 1'000'000));
    CHECK(document.files == std::vector<std::filesystem::path>{folder / "job.json", folder / "t.csv"});
    std::ofstream(folder / "t.csv", std::ios::binary | std::ios::app) << "1,1\n";
    CHECK_THROWS_AS(walks_all(*document.series[0].trace, 1'000'000), input::InputMissing);
}
