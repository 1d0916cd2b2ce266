#include "document/reading_help.hpp"

#include <catch2/catch.hpp>

#include <bit>
#include <cstdint>
#include <limits>

using namespace wayfolio;
using namespace wayfolio::document;

namespace {

constexpr const char* npy_head = R"("error": "EXX", "unit": "um", "position_unit": "mm", "trace": {"file": "t.npy"})";

std::vector<TraceSample> samples_of(const std::string& npy) {
    return read_text(one_series(npy_head), {{"t.npy", npy}}).series[0].trace->samples;
}

std::string first_fault(const std::string& npy) {
    const auto faults = faults_of(one_series(npy_head), {{"t.npy", npy}});
    return faults.empty() ? "none" : faults.front();
}

std::string bytes_of(std::uint64_t number, std::size_t size, bool big_endian) {
    std::string bytes;
    for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>(number >> (8 * (big_endian ? size - 1 - i : i)) & 0xFFU);
    return bytes;
}

/// A file as numpy.lib.format describes it: the header padded with blanks to a multiple of 64 bytes.
std::string npy_with(std::string header, const std::string& numbers, char version = 1) {
    const std::size_t head = version == 1 ? 10 : 12;
    while ((head + header.size() + 1) % 64 != 0) header += ' ';
    header += '\n';
    return "\x93NUMPY" + std::string{version, '\0'} + bytes_of(header.size(), version == 1 ? 2 : 4, false) + header + numbers;
}

std::string header_of(const std::string& type, const std::string& fortran_order, const std::string& shape) {
    return "{'descr': '" + type + "', 'fortran_order': " + fortran_order + ", 'shape': " + shape + ", }";
}

std::string doubles(const std::vector<double>& numbers, bool big_endian = false) {
    std::string bytes;
    for (const double number : numbers) bytes += bytes_of(std::bit_cast<std::uint64_t>(number), 8, big_endian);
    return bytes;
}

std::string singles(const std::vector<float>& numbers) {
    std::string bytes;
    for (const float number : numbers) bytes += bytes_of(std::bit_cast<std::uint32_t>(number), 4, false);
    return bytes;
}

void check_three(const std::vector<TraceSample>& samples) {
    REQUIRE(samples.size() == 3);
    const double positions[] = {0, 0.5, 1}, values[] = {1.25, -2.5, 0.1};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(samples[i].position.in(units::position_millimetre) == positions[i]);
        CHECK(samples[i].value.in(units::micrometre) == values[i]);
    }
}

const std::vector<double> by_rows{0, 1.25, 0.5, -2.5, 1, 0.1};

}  // namespace

TEST_CASE("an array of .npy is read by rows and by columns, in either order of bytes, in each version") {
    check_three(samples_of(npy_with(header_of("<f8", "False", "(3, 2)"), doubles(by_rows))));
    check_three(samples_of(npy_with(header_of("<f8", "True", "(3, 2)"), doubles({0, 0.5, 1, 1.25, -2.5, 0.1}))));
    check_three(samples_of(npy_with(header_of(">f8", "False", "(3, 2)"), doubles(by_rows, /*big_endian=*/true))));
    check_three(samples_of(npy_with(header_of("<f8", "False", "(3, 2)"), doubles(by_rows), 2)));
    check_three(samples_of(npy_with(R"({"shape":(3,2),"fortran_order":False,"descr":"<f8"})", doubles(by_rows), 3)));
    const auto samples = samples_of(npy_with(header_of("<f4", "False", "(2, 2)"), singles({0.0F, 0.1F, 1.0F, -0.0F})));
    CHECK(samples[0].value.in(units::micrometre) == static_cast<double>(0.1F));
    CHECK_FALSE(std::signbit(samples[1].value.in(units::micrometre)));
}

// The bytes that numpy 1.24 writes for np.save(f, np.array([[0, 1.25], [0.5, -2.5], [1, 0.1]])), written down by hand from the format.
TEST_CASE("a file as NumPy pads it, with 128 bytes before the numbers, is read") {
    std::string header = "{'descr': '<f8', 'fortran_order': False, 'shape': (3, 2), }";
    header.resize(117, ' ');
    header += '\n';
    check_three(samples_of(std::string("\x93NUMPY\x01\x00\x76\x00", 10) + header + doubles(by_rows)));
}

TEST_CASE("a header that lies, is cut off or says something else is refused with what it says") {
    const auto fault = [](const std::string& type, const std::string& order, const std::string& shape, std::size_t numbers = 6) {
        return first_fault(npy_with(header_of(type, order, shape), doubles(std::vector<double>(numbers, 0.5))));
    };
    CHECK(fault("<f8", "False", "(4, 2)") ==
          "t.npy: found 48 bytes behind a header that says 4 rows of 16 bytes; expected as many as the header says (is the file whole?)");
    CHECK(fault("<f8", "False", "(1152921504606846979, 2)").find("says 1152921504606846979 rows of 16 bytes") != std::string::npos);
    CHECK(fault("<f8", "False", "(99999999999999999999, 2)").find("expected a header with \"descr\"") != std::string::npos);
    CHECK(fault("<f8", "False", "(2, 3)") ==
          "t.npy: found an array of shape (2, 3); expected two columns, position and value: shape (n, 2) (transpose it)");
    CHECK(fault("<f8", "False", "(6,)").find("an array of shape (6,)") != std::string::npos);
    CHECK(fault("<f8", "False", "()").find("an array of shape ()") != std::string::npos);
    CHECK(fault("<f8", "False", "(0, 2)", 0).find("found no samples") != std::string::npos);
    CHECK(fault("<i4", "False", "(3, 2)").find("numbers of type \"<i4\"") != std::string::npos);
    CHECK(fault("<f8", "Perhaps", "(3, 2)").find("expected a header with \"descr\"") != std::string::npos);
    CHECK(first_fault(npy_with("{'descr': [('x', '<f8'), ('v', '<f8')], 'fortran_order': False, 'shape': (3,), }", doubles(by_rows)))
              .find("numbers of type") != std::string::npos);
    CHECK(first_fault(npy_with("{'descr': '<f8', 'shape': (3, 2), }", doubles(by_rows))).find("expected a header") != std::string::npos);
    CHECK(first_fault("\x93NUMPY").find("ends in its head") != std::string::npos);
    CHECK(first_fault(std::string("\x93NUMPY\x01\x00\xff\xff{", 11)).find("a header of 65535 bytes in a file of 11") != std::string::npos);
    CHECK(first_fault(std::string("\x93NUMPY\x02\x00\xff", 9)).find("is the file whole?") != std::string::npos);
    CHECK(first_fault(std::string("\x93NUMPY\x09\x00\x01\x00{", 11)).find("version 9 of .npy") != std::string::npos);
}

TEST_CASE("samples that no document may hold are told by their number, all of them") {
    const double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
    const std::string npy = npy_with(header_of("<f8", "False", "(4, 2)"), doubles({0, 1, 1, nan, -infinite, 2, 1e9, 0}));
    const auto faults = faults_of(one_series(npy_head), {{"t.npy", npy}});
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].find("t.npy: found nan as the value of sample 2; expected a deviation in um") == 0);
    CHECK(faults[1].find("t.npy: found -inf as the position of sample 3; expected") == 0);
    CHECK(faults[2].find("t.npy: found 1000000000 as the position of sample 4; expected") == 0);
}

TEST_CASE("no bytes behind the magic word make the reader fall or read beyond its file") {
    const std::string sound = npy_with(header_of("<f8", "False", "(3, 2)"), doubles(by_rows));
    for (std::size_t size = 6; size < sound.size(); ++size) CHECK(first_fault(sound.substr(0, size)) != "none");
    for (std::size_t at = 6; at < 70; ++at)
        for (const char byte : {'\0', '\xff', '(', '9', '\''}) {
            std::string changed = sound;
            changed[at] = byte;
            CHECK_FALSE(first_fault(changed).empty());
        }
}
