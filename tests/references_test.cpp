#define CATCH_CONFIG_FAST_COMPILE
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

namespace {

namespace fs = std::filesystem;

const fs::path tests = fs::path(WAYFOLIO_SOURCE_FOLDER) / "tests", golden = tests / "golden";

std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string without_comments(const std::string& source) {
    std::string code;
    std::size_t from = 0;
    for (std::size_t comment; (comment = source.find("//", from)) != std::string::npos;) {
        code += source.substr(from, comment - from);
        from = std::min(source.find('\n', comment), source.size());
    }
    return code + source.substr(from);
}

/// The code of every test.
std::string all_tests() {
    std::string code;
    for (const auto& entry : fs::recursive_directory_iterator(tests)) {
        if (entry.path().extension() == ".cpp") code += without_comments(text_of(entry.path()));
    }
    return code;
}

struct Reference {
    std::string name;  ///< below tests/golden
    std::uintmax_t bytes;
};

std::vector<Reference> references() {
    std::vector<Reference> all;
    for (const auto& entry : fs::recursive_directory_iterator(golden)) {
        if (entry.is_regular_file()) all.push_back({entry.path().lexically_relative(golden).generic_string(), entry.file_size()});
    }
    return all;
}

/// Those of `all` that no test names. The folder of awkward documents is what the generator makes: it names each file.
std::vector<std::string> unused(const std::vector<Reference>& all, const std::string& code) {
    std::vector<std::string> found;
    for (const Reference& one : all) {
        const bool made = one.name.starts_with("awkward/");
        if (code.find("\"" + (made ? one.name.substr(std::string("awkward/").size()) : one.name) + "\"") == std::string::npos)
            found.push_back(one.name);
    }
    return found;
}

}  // namespace

TEST_CASE("every reference in tests/golden is asked for by a test, by its whole name") {
    const auto all = references();
    CHECK(all.size() > 50);
    CHECK(unused(all, all_tests()) == std::vector<std::string>{});
    CHECK(unused({{std::string("figures/nobody") + "-asks.txt", 1}}, all_tests()).size() == 1);
}

TEST_CASE("a reference is under 20 kB, and all of them together are under 1 MB") {
    constexpr std::uintmax_t most = 20000, most_together = 1000000;
    std::uintmax_t together = 0;
    for (const Reference& one : references()) {
        CAPTURE(one.name);
        CHECK(one.bytes < most);
        together += one.bytes;
    }
    CHECK(together < most_together);
}
