#include "gather/gather.hpp"
#include "gather/shapes/export_reader.hpp"
#include "input/digest.hpp"

#include <orcus/csv_parser.hpp>

#include <sys/resource.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <string>
#include <string_view>

/// How fast a text of readings is gathered: wayfolio-gather-speed [ROWS]. Each line says what was done with the same bytes, in MB for a
/// second of the processor and as a ratio to the second line: lines counted, as wc -l does; cells cut by liborcus's parser of CSV, which
/// only cuts them; the digest alone; rows and cells cut here; rows read into readings; and all of gather(), from bytes in memory to a
/// document that was written and found sound. The last three have the digest of the bytes in them.
namespace {

using namespace wayfolio;

std::string rows_of(std::size_t rows) {
    std::string text = "Target,Direction,Run,Deviation\n";
    const std::size_t targets = std::max<std::size_t>(rows / 1000, 1);
    for (std::size_t row = 0; row < rows; ++row) {
        const std::size_t target = row % targets, run = row / targets;
        char line[64];
        std::snprintf(line, sizeof line, "%zu.5,%c,%zu,%.2f\n", target, run % 2 == 0 ? '+' : '-', run / 2 + 1,
                      static_cast<double>((row * 7919) % 2001) / 100 - 10);
        text += line;
    }
    return text;
}

struct CellCounter {
    std::size_t cells = 0;
    static void begin_parse() {}
    static void end_parse() {}
    static void begin_row() {}
    static void end_row() {}
    void cell(const char*, std::size_t, bool) { ++cells; }
};

constexpr std::string_view peer_name = "cells cut by liborcus";

void measure(const char* what, std::size_t bytes, const std::function<std::size_t()>& work) {
    double best = 1e9;
    std::size_t count = 0;
    for (int turn = 0; turn < 3; ++turn) {
        const std::clock_t start = std::clock();  // of the processor: others may be at work
        count = work();
        best = std::min(best, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    const double rate = static_cast<double>(bytes) / 1e6 / best;
    static double peer = 0;  // the general library, measured in the same run
    if (std::string_view(what).starts_with(peer_name)) peer = rate;
    std::printf("%-44s %8.1f MB/s", what, rate);
    if (peer > 0) std::printf("  x %5.2f", rate / peer);
    std::printf("  %10zu  most memory so far %ld MiB\n", count, used.ru_maxrss / 1024);
}

constexpr const char* speed_mapping = R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "x.csv", "position": {"column": "Target"}, "approach": {"column": "Direction", "positive": ["+"], "negative": ["-"]},
   "run": {"column": "Run"}, "values": [{"series": "x", "column": "Deviation"}]}]})";

/// Rows read into readings, by the mapping above: what gather() does first.
std::size_t readings_of(const gather::ExportFile& file) {
    const gather::Mapping mapping = gather::read_mapping(speed_mapping, "m.json");
    gather::Collected collected;
    collected.series.push_back(std::make_unique<gather::SeriesCollector>(mapping.series.front()));
    gather::ExportFaults faults(file.path);
    gather::ExportReader reader(mapping.exports.front(), mapping, {0, file.name}, faults, collected);
    gather::read_rows(file, {mapping.exports.front().dialect, {}}, faults, [&](const gather::Row& row) { reader.row(row); });
    reader.finish();
    return faults.any() ? 0 : reader.rows();
}

}  // namespace

int main(int count, char** arguments) {
    const std::string text = rows_of(count > 1 ? std::stoul(arguments[1]) : 1'000'000);
    const gather::ExportFile file{"x.csv", "x.csv", [&](const std::function<void(std::string_view)>& take) {
                                      constexpr std::size_t piece = 65'536;
                                      for (std::size_t at = 0; at < text.size(); at += piece)
                                          take(std::string_view(text).substr(at, piece));
                                  }};
    measure("lines counted", text.size(), [&] { return static_cast<std::size_t>(std::ranges::count(text, '\n')); });
    measure("cells cut by liborcus", text.size(), [&] {
        CellCounter counter;
        orcus::csv::parser_config config;
        config.delimiters.push_back(',');
        config.text_qualifier = '"';
        orcus::csv_parser<CellCounter>(text.data(), text.size(), counter, config).parse();
        return counter.cells;
    });
    measure("digest alone, SHA-256", text.size(), [&] {
        input::Digest digest(input::DigestKind::Sha256);
        file.read([&](std::string_view piece) { digest.add(piece); });
        return digest.hex().size();
    });
    measure("rows and cells cut here, with their digest", text.size(), [&] {
        std::size_t cells = 0;
        gather::ExportFaults faults("x.csv");
        gather::read_text_rows(file, {}, faults, [&](const gather::Row& row) { cells += row.cells.size(); });
        return cells;
    });
    measure("rows read into readings", text.size(), [&] { return readings_of(file); });
    measure("gathered into a document", text.size(), [&] {
        return gather::gather({.mapping = speed_mapping, .mapping_file = "m.json", .exports = {file}}).account.series.front().used;
    });
    return 0;
}
