#include "document/read/trace/in_order.hpp"
#include "document/read/trace/short_decimal.hpp"
#include "document/read/trace/trace_file.hpp"
#include "document/reading_help.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <atomic>
#include <bit>
#include <charconv>
#include <cstring>
#include <random>

/// The text of a trace is read in blocks, on several threads: what is read does not depend on where it is cut, nor on who reads.
using namespace wayfolio;
using namespace wayfolio::document;

namespace {

using Told = std::vector<std::string>;

std::string to_line(const TraceFault& fault) {
    return fmt::format("{}:{}: found {}; expected {}", fault.line, fault.column, fault.found, fault.expected);
}

/// Samples, with the bits of their numbers and their lines, and faults, as they come.
Told read_by(const input::ByteSource& source, const TraceReadingBy& by) {
    Told told;
    const auto take = [&](std::span<const WrittenSample> samples, std::size_t places_before) {
        for (const auto& [position, value, place] : samples)
            told.push_back(fmt::format("{}: {:a} {:a}", places_before + place, position, value));
    };
    read_trace_file(source, {take, [&](const TraceFault& fault) { told.push_back(to_line(fault)); }}, by);
    return told;
}
Told read_by(const std::string& text, const TraceReadingBy& by) { return read_by(input::source_of(text), by); }
Told read_whole(const std::string& text) { return read_by(text, {.threads = 1, .block_size = text.size() + 1}); }

void check_all_cuts(const std::string& text) {
    const Told whole = read_whole(text);
    for (std::size_t block = 1; block <= text.size() + 1; ++block)
        for (const std::size_t threads : {1, 2, 3}) {
            INFO("blocks of " << block << " bytes on " << threads << " threads");
            CHECK(read_by(text, {.threads = threads, .block_size = block}) == whole);
        }
}

/// Many lines of eight bytes each, and what stands in their place at some.
input::ByteSource lines_of_eight(std::size_t count, const std::map<std::size_t, std::string>& others) {
    return {8 * count, [=](std::size_t place, std::span<char> into) {
                const std::size_t got = std::min(into.size(), 8 * count - std::min(place, 8 * count));
                for (std::size_t i = 0; i < got; ++i) into[i] = "12.5,-3\n"[(place + i) % 8];
                for (const auto& [line, other] : others)
                    for (std::size_t i = 0; i < 8; ++i)
                        if (const std::size_t at = 8 * (line - 1) + i; at >= place && at < place + got) into[at - place] = other[i];
                return got;
            }};
}

}  // namespace

TEST_CASE("a text gives the same samples and faults wherever its blocks are cut, on any number of threads") {
    check_all_cuts("position,value\n0,1\n0.5,2\n1,3\n");
    check_all_cuts("0 1\n0.5\t2\n1 ; 3");  // the last line without its end
    check_all_cuts("\xEF\xBB\xBFposition;value\r\n+0;-1e-3\r\n\r\n .5 , 1\r\n1;12345678901234567890\r\n");
    check_all_cuts("\n \n\r\nx,y\n\n1,2\n\n3,4\n");  // empty lines, then the header
    check_all_cuts("1,2\n3,x\n4\n+y,1\n5,6,7\n8,-inf\n9,10\nz,1");
    check_all_cuts("one header\nand another\n1,2\n");
    check_all_cuts("\n\n\n");
    check_all_cuts("");
    check_all_cuts("\xFF\xFE" "1\0,\0");
}

TEST_CASE("what a text gives stands with the lines that it was written in") {
    CHECK(read_whole("x,y\r\n\r\n1,-2\r\n+3 ; 4e0\n5\t6") == Told{"3: 0x1p+0 -0x1p+1", "4: 0x1.8p+1 0x1p+2", "5: 0x1.4p+2 0x1.8p+2"});
    CHECK(read_whole("1,2\n3,+x\n4 5 6\r\n7") ==
          Told{"1: 0x1p+0 0x1p+1", "2:4: found \"x\"; expected a value after the position: a number with a decimal point",
               "3:5: found \"6\\u000d\"; expected two columns, position and value, with decimal points",
               "4:2: found \"\"; expected a value after the position: a number with a decimal point"});
    CHECK(read_whole("\n\n") == Told{"1:1: found no samples; expected two columns, position and value"});
    CHECK(read_whole("x,y\n") == Told{"1:1: found no samples; expected two columns, position and value"});
}

TEST_CASE("a line that is too long is told and ends the reading, whatever block it begins in") {
    const std::string before = "1,2\n3,4\n";
    const std::string longest = "5," + std::string(65'533, '0') + "6", too_long = "5," + std::string(65'534, '0') + "6";
    const std::string fault = "3:1: found a line of more than 65536 bytes; expected two columns, position and value";
    for (const std::size_t block : {4, 7, 100, 65'536, 200'000})
        for (const std::size_t threads : {1, 2}) {
            const TraceReadingBy by{.threads = threads, .block_size = block};
            CHECK(read_by(before + longest + "\n7,8\n", by).back() == "4: 0x1.cp+2 0x1p+3");
            CHECK(read_by(before + longest, by).size() == 3);
            for (const char* behind : {"\n7,8\n", "", "\nx\n"}) {
                const Told told = read_by(before + too_long + behind, by);
                CHECK(told.back() == fault);
                CHECK(told[1] == "2: 0x1.8p+1 0x1p+2");
            }
            CHECK(read_by(before + std::string(70'000, 'x') + "\n7,8\n", by) == Told{"1: 0x1p+0 0x1p+1", "2: 0x1.8p+1 0x1p+2", fault});
        }
}

TEST_CASE("a header is found behind a block of empty lines, and a number that is none five million lines later, on any number of threads") {
    constexpr std::size_t count = 5'000'010;
    std::map<std::size_t, std::string> others{{5'000'001, "12.5,-x\n"}, {5'000'005, "twelve.\n"}};
    for (std::size_t line = 1; line <= 3; ++line) others.emplace(line, "       \n");
    others.emplace(4, "pos;val\n");
    const input::ByteSource source = lines_of_eight(count, others);
    for (const std::size_t threads : {1, 2, 4}) {
        std::size_t samples = 0;
        Told faults;
        read_trace_file(source, {[&](std::span<const WrittenSample> some, std::size_t) { samples += some.size(); },
                                 [&](const TraceFault& fault) { faults.push_back(to_line(fault)); }},
                        {.threads = threads});
        CHECK(samples == count - 6);
        CHECK(faults == Told{"5000001:6: found \"-x\"; expected a value after the position: a number with a decimal point",
                             "5000005:1: found \"twelve.\"; expected a position: a number with a decimal point"});
    }
    const std::string blank(300'000, '\n');
    CHECK(read_by(blank + "x;y\n1;2\n", {.threads = 2}) == Told{"300002: 0x1p+0 0x1p+1"});
    CHECK(read_by(blank + "x;y\nz\n1;2\n", {.threads = 2}).front() ==
          "300002:1: found \"z\"; expected a position: a number with a decimal point");
}

TEST_CASE("a source that fails is told behind what stands before, and by the first failure, on any number of threads") {
    const input::ByteSource sound = lines_of_eight(10'000, {});
    const input::ByteSource source{sound.size, [&](std::size_t place, std::span<char> into) {
                                       if (place > 40'000) throw input::InputMissing("t.csv", place > 60'000 ? "later" : "first");
                                       return sound.read_at(place, into);
                                   }};
    for (const std::size_t threads : {1, 2, 4}) {
        std::size_t samples = 0;
        const auto count = [&](std::span<const WrittenSample> some, std::size_t) { samples += some.size(); };
        const TraceFileSink sink{count, [](const TraceFault&) {}};
        CHECK_THROWS_WITH(read_trace_file(source, sink, {.threads = threads, .block_size = 1000}), Catch::Contains("first"));
        CHECK(samples == 41'000 / 8);
    }
}

TEST_CASE("short decimals have the bits that std::from_chars gives them") {
    std::mt19937_64 random(5);
    const auto same = [](const std::string& text) {
        const std::string ended = text + "\n";
        const ReadNumber read = read_short_decimal(ended.data());
        if (read.behind == nullptr) return false;
        double expected = 0;
        const char* const end = std::from_chars(ended.data(), ended.data() + ended.size(), expected).ptr;
        return read.behind == end && std::bit_cast<std::uint64_t>(read.value) == std::bit_cast<std::uint64_t>(expected);
    };
    int different = 0;
    for (int i = 0; i < 200'000; ++i) {
        const auto whole = static_cast<std::size_t>(1 + random() % 15), decimals = static_cast<std::size_t>(random() % (16 - whole));
        std::string text = random() % 2 == 0 ? "-" : "";
        for (std::size_t digit = 0; digit < whole + decimals; ++digit) {
            if (digit == whole) text += '.';
            text += static_cast<char>('0' + random() % 10);
        }
        if (!same(text)) ++different;
    }
    CHECK(different == 0);
    for (const char* text : {"0", "-0", "-0.0", "0.00000000000001", "999999999999999", "0.1", "1;2", "1.5.5", "1x"}) CHECK(same(text));
}

TEST_CASE("numbers that are not short decimals are left to std::from_chars") {
    for (const char* text : {"", "-", ".", ".5", "5.", "1e3", "1.5E-3", "1e", "1234567890123456", "0.1234567890123456", "-inf", "nan", "+1",
                             "--1"}) {
        INFO(text);
        CHECK(read_short_decimal((std::string(text) + "\n").c_str()).behind == nullptr);
    }
    CHECK(read_whole("0.1234567890123456789 9007199254740993\n1e-3 1E3\n.5 5.\n") ==
          Told{fmt::format("1: {:a} {:a}", 0.1234567890123456789, 9007199254740993.0), fmt::format("2: {:a} {:a}", 1e-3, 1e3),
               fmt::format("3: {:a} {:a}", 0.5, 5.0)});
}

TEST_CASE("things made on several threads are handed on in order, each once, until one is enough or fails") {
    for (const std::size_t threads : {1, 2, 5}) {
        std::vector<std::size_t> taken;
        std::atomic<std::size_t> made = 0;
        const auto make = [&](std::size_t number, std::size_t& into) {
            ++made;
            if (number == 700) throw std::runtime_error("seven hundred");
            if (number == 701) throw std::runtime_error("the one behind");
            into = number;
        };
        const auto take_until = [&](std::size_t last) {
            return [&taken, last](std::size_t number) {
                taken.push_back(number);
                return number != last;
            };
        };
        InOrder<std::size_t>::run(700, threads, make, take_until(1'000));
        CHECK(taken.size() == 700);
        CHECK(made == 700);
        CHECK(std::ranges::is_sorted(taken));
        taken.clear();
        InOrder<std::size_t>::run(1'000, threads, make, take_until(500));
        CHECK(taken.size() == 501);
        taken.clear();
        CHECK_THROWS_WITH(InOrder<std::size_t>::run(1'000, threads, make, take_until(1'000)), "seven hundred");
        CHECK(taken.size() == 700);
    }
    InOrder<int>::run(0, 2, [](std::size_t, int&) { FAIL("there is nothing to make"); }, [](int) { return true; });
}
