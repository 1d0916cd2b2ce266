#include "document/read_document.hpp"
#include "evaluate/evaluation.hpp"
#include "input/byte_source.hpp"
#include "input/digest.hpp"

#include <sys/resource.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <vector>

/// What a record on the fly costs: wayfolio-trace-speed FOLDER [SAMPLES]. It writes a seeded trace of so many samples (1 000 000), as text
/// and as an array of .npy, reads each and evaluates it, and says the processor time as a ratio: of text to counting its lines, as wc -l
/// does, of the array to reading its file once. The most memory is that of the whole program so far.
namespace {

using namespace wayfolio;
namespace fs = std::filesystem;

/// There and back over a metre: a bow, a period of 10 mm, noise (splitmix64 [from memory], seeded by the sample).
std::pair<double, double> sample_at(std::uint64_t sample, std::uint64_t samples) {
    std::uint64_t z = (sample + 1) * 0x9E3779B97F4A7C15U;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    const double noise = static_cast<double>((z ^ (z >> 31U)) >> 11U) / 9007199254740992.0;
    const double way = 2000.0 * static_cast<double>(sample) / static_cast<double>(samples - 1);
    const double x = way <= 1000 ? way : 2000 - way;
    const double bow = x * (1000 - x) / 40'000, in_period = x / 10 - static_cast<double>(static_cast<long>(x / 10));
    return {x, bow + 2 * in_period * (1 - in_period) + noise};
}

void put(std::string& text, double number, int decimals) {
    char letters[32];
    text.append(letters, std::to_chars(letters, letters + sizeof letters, number, std::chars_format::fixed, decimals).ptr);
}

void write_text(const fs::path& path, std::uint64_t samples) {
    std::ofstream file(path, std::ios::binary);
    std::string text = "position,value\n";
    for (std::uint64_t sample = 0; sample < samples; ++sample) {
        const auto [x, y] = sample_at(sample, samples);
        put(text, x, 4);
        text += ',';
        put(text, y, 3);
        text += '\n';
        if (text.size() > 1'000'000) file << text, text.clear();
    }
    file << text;
}

void write_npy(const fs::path& path, std::uint64_t samples) {
    std::string head = "{'descr': '<f8', 'fortran_order': False, 'shape': (" + std::to_string(samples) + ", 2), }";
    head.resize(117, ' ');
    std::ofstream file(path, std::ios::binary);
    file << std::string("\x93NUMPY\x01\x00\x76\x00", 10) << head << '\n';
    std::vector<double> numbers;
    for (std::uint64_t sample = 0; sample < samples; ++sample) {
        const auto [x, y] = sample_at(sample, samples);
        numbers.insert(numbers.end(), {x, y});
        if (numbers.size() < 100'000 && sample + 1 < samples) continue;
        file.write(reinterpret_cast<const char*>(numbers.data()), static_cast<std::streamsize>(numbers.size() * sizeof(double)));
        numbers.clear();
    }
}

double seconds_of(const std::function<void()>& work) {
    double best = 1e9;
    for (int turn = 0; turn < 3; ++turn) {
        const std::clock_t start = std::clock();  // of the processor: others may be at work
        work();
        best = std::min(best, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return best;
}

void tell(const char* what, double bytes, double seconds, double floor) {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    std::printf("%-46s %9.3f s %9.1f MB/s  x %6.2f  most memory so far %ld MiB\n", what, seconds, bytes / 1e6 / seconds, seconds / floor,
                used.ru_maxrss / 1024);
}

fs::path document_of(const fs::path& folder, const std::string& file) {
    const fs::path path = folder / (file + ".json");
    std::ofstream(path) << R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "y", "error": "EYX", "unit": "um",
        "position_unit": "mm", "targets": [100, 500, 900], "trace": {"file": ")" +
                               file + R"(", "pitch": 10}}]})";
    return path;
}

void measure(const fs::path& folder, const std::string& file, const char* floor_name,
             const std::function<void(std::string_view)>& floor_work) {
    const auto bytes = static_cast<double>(fs::file_size(folder / file));
    const double floor = seconds_of([&] { input::read_in_pieces(input::source_of_file(folder / file), floor_work); });
    tell(floor_name, bytes, floor, floor);
    tell("  its digest alone", bytes, seconds_of([&] {
             input::Digest digest(input::DigestKind::Sha256);
             input::read_in_pieces(input::source_of_file(folder / file), [&](std::string_view piece) { digest.add(piece); });
             (void)digest.hex();
         }), floor);
    const fs::path document = document_of(folder, file);
    tell("  read and looked at, with its digest", bytes, seconds_of([&] { (void)document::read_document(document); }), floor);
    const document::Document read = document::read_document(document);
    tell("  evaluated", bytes, seconds_of([&] { (void)evaluate::evaluate(read); }), floor);
}

}  // namespace

int main(int count, char** arguments) {
    if (count < 2) {
        std::fputs("wayfolio-trace-speed FOLDER [SAMPLES]\n", stderr);
        return 2;
    }
    const fs::path folder = arguments[1];
    const std::uint64_t samples = count > 2 ? std::stoull(arguments[2]) : 1'000'000;
    write_text(folder / "trace.csv", samples);
    std::size_t lines = 0;
    measure(folder, "trace.csv", "text: read once, lines counted",
            [&](std::string_view piece) { lines += static_cast<std::size_t>(std::ranges::count(piece, '\n')); });
    fs::remove(folder / "trace.csv");
    write_npy(folder / "trace.npy", samples);
    measure(folder, "trace.npy", ".npy: read once", [](std::string_view) {});
    fs::remove(folder / "trace.npy");
    return lines == 0 ? 1 : 0;
}
