#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
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

/// Body of the fenced block that stands under a marker.
std::string block_under(const std::string& marker) {
    const std::string text = readme(), comment = "<!-- " + marker + " -->\n```";
    const std::size_t at = text.find(comment);
    REQUIRE(at != std::string::npos);
    const std::size_t start = text.find('\n', at + comment.size()) + 1;
    return text.substr(start, text.find("\n```", start) + 1 - start);
}

std::string own_layout() { return block_under("a layout of a laboratory's own"); }

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

const std::filesystem::path manual_folder = source_folder + "/render/install";

/// A page of the manual as words, without what sets it.
std::string manual(const std::string& page) {
    std::string text = file_bytes(manual_folder / page);
    for (const auto& [set, plain] : {std::pair(R"(\\-)", "-"), std::pair(R"(\\&)", ""), std::pair(R"(\\f[BIR])", "")})
        text = std::regex_replace(text, std::regex(set), plain);
    return text;
}

std::vector<std::string> manual_pages() {
    std::vector<std::string> pages;
    for (const auto& entry : std::filesystem::directory_iterator(manual_folder))
        if (std::regex_match(entry.path().extension().string(), std::regex("\\.[1-9]"))) pages.push_back(entry.path().filename().string());
    std::ranges::sort(pages);
    return pages;
}

/// Lines of the examples that call the program, in the README and then in the manual.
std::vector<std::string> example_lines() {
    std::string all;
    for (const std::string& block : blocks("sh")) all += std::regex_replace(block, std::regex("\\\\\n *"), "");
    bool as_it_stands = false;
    for (const std::string& page : manual_pages())
        for (const std::string& line : lines_of(manual(page))) {
            if (line == ".nf" || line == ".fi") as_it_stands = line == ".nf";
            else if (as_it_stands) all += line + "\n";
        }
    std::vector<std::string> calls = lines_of(all);
    std::erase_if(calls, [](const std::string& line) { return !line.starts_with("wayfolio "); });
    return calls;
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

TEST_CASE("the README's smallest document is one that works") {
    const TemporaryFolder folder;
    const std::string document = folder.file("smallest.json", block_under("the smallest document"));
    CHECK(called_with("check " + document).code == 0);
    CHECK(called_with("report " + document + " -o " + folder / "smallest.pdf").code == 0);
}

TEST_CASE("the README's layout of a laboratory's own is ten lines, and draws what it says") {
    const TemporaryFolder folder;
    const std::string layout = folder.file("house.json", own_layout()), pdf = folder / "house.pdf";
    CHECK(lines_of(own_layout()).size() <= 10);
    REQUIRE(called_with("report " + short_axis + " -o " + pdf + " --layout " + layout).code == 0);
    const std::string first = run("pdftotext -l 1 " + pdf + " -").out, all = run("pdftotext " + pdf + " -").out;
    CHECK(first.starts_with("Form 12-A of the example laboratory\n"));
    CHECK_THAT(first, Contains("2,62") && Contains("Released by") && !Contains("Approved by"));
    CHECK_THAT(all, Contains("Terms of the laboratory") && Contains("Complaints are taken in writing within 30 days"));
    CHECK_THAT(all, !Contains("Readings EXX"));
}

TEST_CASE("the colours of the README's layout are drawn, and one that could not be read is refused with its contrast") {
    const TemporaryFolder folder;
    const std::string layout = folder.file("house.json", own_layout()), svg = folder / "x.svg";
    REQUIRE(called_with("figure " + short_axis + " --series x-exx-found -o " + svg + " --layout " + layout).code == 0);
    CHECK_THAT(file_bytes(svg), Contains("#0b4f8a") && Contains("#9a6200"));
    const std::string pale = folder.file("pale.json", std::regex_replace(own_layout(), std::regex("#0B4F8A"), "#F4F8FF"));
    const Ran refused = called_with("report " + short_axis + " -o " + folder / "pale.pdf --layout " + pale);
    CHECK(refused.code == 65);
    CHECK_THAT(refused.err, Contains("/colours/positive") && Contains("contrast"));
}

TEST_CASE("the README is a door: short, its lines narrow, and every page of the manual is named in it and by the other pages") {
    const std::string text = readme();
    CHECK(lines_of(text).size() <= 200);
    for (const std::string& line : lines_of(text)) {
        CAPTURE(line);
        CHECK((line.size() <= 145 || line.starts_with("| ") || line.starts_with(".ci/install")));
    }
    const std::vector<std::string> pages = manual_pages();
    CHECK(pages.size() == 9);
    const std::string installed = file_bytes(source_folder + "/render/install.cmake"), first = manual("wayfolio.1");
    for (const std::string& page : pages) {
        CAPTURE(page);
        const std::string name = page.substr(0, page.find('.')), section = page.substr(page.find('.') + 1);
        CHECK_THAT(text, Contains("`" + name + "(" + section + ")`"));
        CHECK_THAT(installed, Contains("render/install/" + page));
        CHECK_THAT(file_bytes(manual_folder / page), Contains(".SH NAME\n") && Contains(".SH SEE ALSO\n"));
        if (page != "wayfolio.1") CHECK_THAT(first, Contains(name + " (" + section + ")"));
    }
}

TEST_CASE("every example of the README and of the manual runs as it stands", "[slow][again]") {
    const TemporaryFolder folder;
    REQUIRE(example_lines().size() >= verbs.size() + 20);
    folder.file("house.json", own_layout());
    const std::string enter =
        "cd " + folder.path().string() + " && cp -r " + source_folder + "/sample-results . && PATH=" +
        WAYFOLIO_BUILD_FOLDER + ":$PATH && ";
    for (const std::string& line : example_lines()) {
        CAPTURE(line);
        const Ran ran = run(enter + line);
        CAPTURE(ran.err);
        CHECK(ran.code == 0);
    }
}

TEST_CASE("the README shows every command, and the manual explains every exit code as the help does") {
    const std::string text = readme(), help = called_with("--help").out;
    for (const std::string& verb : verbs)  // a preview has no end that an example could have
        if (verb != "preview") CHECK_THAT(text, Contains("\nwayfolio " + verb));
    const std::string words = std::regex_replace(manual("wayfolio.1"), std::regex("\\s+"), " ");
    const std::vector<std::string> codes = lines_of(help.substr(help.find("Exit codes:\n") + 12));
    for (std::size_t row = 0; row < 9; ++row) {
        const std::string& line = codes.at(row);
        const std::size_t start = line.find_first_not_of(' ');
        CHECK_THAT(words, Contains(".TP .B " + line.substr(start, line.find("  ", start) - start) + " " + line.substr(6) + " "));
    }
}

TEST_CASE("the man page and the completion know every command and option of the help") {
    const std::string page = manual("wayfolio.1");
    const std::string completion = file_bytes(source_folder + "/render/install/wayfolio.bash");
    REQUIRE(long_options().size() >= 9);
    for (const std::string& option : long_options()) {
        CHECK_THAT(page, Contains(option));
        CHECK_THAT(completion, Contains(option));
    }
    for (const std::string& verb : verbs) {
        CHECK_THAT(page, Contains(".B wayfolio " + verb));
        CHECK_THAT(completion, Contains(" " + verb + " ") || Contains("\"" + verb + " "));
    }
}
