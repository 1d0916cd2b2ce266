#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <set>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;

namespace {

std::string readme() { return file_bytes(source_folder + "/README.md"); }

/// Bodies of the fenced blocks of one language.
std::vector<std::string> blocks(const std::string& language) {
    const std::string text = readme(), opening = "\n```" + language + "\n";
    std::vector<std::string> found;
    for (std::size_t at = text.find(opening); at != std::string::npos; at = text.find(opening, at + 1)) {
        const std::size_t start = at + opening.size();
        found.push_back(text.substr(start, text.find("\n```", start) + 1 - start));
    }
    return found;
}

/// Lines of the examples that call the program.
std::vector<std::string> example_lines() {
    std::vector<std::string> lines;
    for (const std::string& block : blocks("sh")) {
        std::istringstream stream(block);
        for (std::string line; std::getline(stream, line);)
            if (line.starts_with("wayfolio ")) lines.push_back(line);
    }
    return lines;
}

/// Every long option that the help of some command names.
std::set<std::string> long_options() {
    static const std::regex option("--[a-z][a-z-]+");
    std::set<std::string> found;
    for (const std::string& verb : verbs) {
        const std::string help = called_with(verb + " --help").out;
        for (std::sregex_iterator match(help.begin(), help.end(), option), end; match != end; ++match) found.insert(match->str());
    }
    return found;
}

}  // namespace

TEST_CASE("the README's minimal document is one that works") {
    const TemporaryFolder folder;
    REQUIRE(blocks("json").size() == 1);
    const std::string document = folder.file("minimal.json", blocks("json").front());
    CHECK(called_with("check " + document).code == 0);
    CHECK(called_with("report " + document + " -o " + folder / "minimal.pdf").code == 0);
}

TEST_CASE("every example of the README runs as it stands", "[slow]") {
    const TemporaryFolder folder;
    REQUIRE(example_lines().size() >= verbs.size());
    const std::string enter =
        "cd " + folder.path().string() + " && cp -r " + source_folder + "/sample-results " + source_folder + "/sample-exports . && PATH=" +
        WAYFOLIO_BUILD_FOLDER + ":$PATH && ";
    for (const std::string& line : example_lines()) {
        CAPTURE(line);
        const Ran ran = run(enter + line);
        CAPTURE(ran.err);
        CHECK(ran.code == 0);
    }
}

TEST_CASE("the README shows every command and explains every exit code as the help does") {
    const std::string text = readme(), help = called_with("--help").out;
    for (const std::string& verb : verbs) CHECK_THAT(text, Contains("\nwayfolio " + verb));
    std::istringstream codes(help.substr(help.find("Exit codes:\n") + 12));
    std::string line;
    for (std::size_t row = 0; row < 8; ++row) {
        std::getline(codes, line);
        const std::string code = line.substr(line.find_first_not_of(' '), line.find("  ", 3) - line.find_first_not_of(' '));
        CHECK_THAT(text, Contains("| " + code + " | " + line.substr(6) + " |"));
    }
}

TEST_CASE("the man page and the completion know every command and option of the help") {
    const std::string manual = std::regex_replace(file_bytes(source_folder + "/render/install/wayfolio.1"), std::regex("\\\\-"), "-");
    const std::string completion = file_bytes(source_folder + "/render/install/wayfolio.bash");
    REQUIRE(long_options().size() >= 9);
    for (const std::string& option : long_options()) {
        CHECK_THAT(manual, Contains(option));
        CHECK_THAT(completion, Contains(option));
    }
    for (const std::string& verb : verbs) {
        CHECK_THAT(manual, Contains(".B wayfolio " + verb));
        CHECK_THAT(completion, Contains(" " + verb + " ") || Contains("\"" + verb + " "));
    }
}
