#include "support/samples/sample_set.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

/// Writes the sample documents, or compares them with those in a folder.
///   wayfolio_samples write   KIND FOLDER
///   wayfolio_samples compare KIND FOLDER     exit code 1 and a line per file that differs
/// KIND: shown (sample-results/), awkward (tests/golden/awkward/) or large (made when the tests are built).
namespace {

using wayfolio::samples::SampleFile;

std::string contents(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

int write(const std::vector<SampleFile>& files, const std::filesystem::path& folder) {
    for (const SampleFile& file : files) {
        std::filesystem::create_directories((folder / file.name).parent_path());
        std::ofstream out(folder / file.name, std::ios::binary);
        if (!(out << file.text).flush()) {
            std::cerr << "cannot write " << (folder / file.name).string() << '\n';
            return 1;
        }
    }
    return 0;
}

int compare(const std::vector<SampleFile>& files, const std::filesystem::path& folder) {
    int different = 0;
    for (const SampleFile& file : files) {
        if (contents(folder / file.name) == file.text) continue;
        std::cerr << (folder / file.name).string() << " is not what the generator makes\n";
        ++different;
    }
    return different == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {
    const std::vector<std::string> words(arguments + 1, arguments + count);
    if (words.size() != 3 || (words[0] != "write" && words[0] != "compare")) {
        std::cerr << "usage: wayfolio_samples write|compare shown|awkward|large FOLDER\n";
        return 2;
    }
    const auto files = words[1] == "large"     ? wayfolio::samples::large_samples()
                       : words[1] == "awkward" ? wayfolio::samples::awkward_samples()
                                               : wayfolio::samples::shown_samples();
    return words[0] == "write" ? write(files, words[2]) : compare(files, words[2]);
}
