#include "front/own_command.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace wayfolio;

namespace {

bool is_own(std::vector<const char*> words) {
    words.insert(words.begin(), "wayfolio");
    return front::own_command(static_cast<int>(words.size()), words.data(), "help").has_value();
}

}  // namespace

TEST_CASE("the program in front answers the version, the help of all verbs and the numbers of a document") {
    CHECK(is_own({"--version"}));
    CHECK(is_own({"--help"}));
    CHECK(is_own({"-h"}));
    CHECK(is_own({"evaluate", "K-2041.json"}));
    CHECK(is_own({"evaluate", "--fail-on-outside", "K-2041.json"}));
    CHECK(is_own({"evaluate", "--", "-dash.json"}));
    CHECK(is_own({"evaluate"}));  // says that no document is named
}

TEST_CASE("what it does not know whole it leaves to the rest of the program: other verbs, their help, and whatever is wrong") {
    CHECK_FALSE(is_own({}));
    CHECK_FALSE(is_own({"report", "K-2041.json"}));
    CHECK_FALSE(is_own({"--version", "--help"}));
    CHECK_FALSE(is_own({"--help", "report"}));
    CHECK_FALSE(is_own({"--verson"}));
    CHECK_FALSE(is_own({"--fail-on-outside", "evaluate", "K-2041.json"}));
    CHECK_FALSE(is_own({"evaluate", "--help"}));
    CHECK_FALSE(is_own({"evaluate", "K-2041.json", "K-2042.json"}));
    CHECK_FALSE(is_own({"evaluate", "K-2041.json", "--fail"}));
    CHECK_FALSE(is_own({"evaluate", "K-2041.json", "--version"}));
}

TEST_CASE("evaluating nothing is a usage error") {
    const char* const words[] = {"wayfolio", "evaluate"};
    CHECK_THROWS_AS(front::own_command(2, words, "")->run({}), front::UsageError);
}
