#include "text/kept.hpp"

#include <catch2/catch.hpp>

using wayfolio::text::Kept;

TEST_CASE("what was made once is kept while it is asked for") {
    Kept<int> kept(10);
    int made = 0;
    const auto ask = [&](const char* key) { return kept.get(key, [&] { return ++made; }); };
    CHECK(ask("a") == 1);
    CHECK(ask("a") == 1);
    CHECK(ask("b") == 2);
    kept.let_go_of_old();
    CHECK(ask("a") == 1);  // of the older generation, and young again
    kept.let_go_of_old();
    CHECK(ask("a") == 1);
    CHECK(ask("b") == 3);  // nobody asked between two lettings go
}

TEST_CASE("no more than two generations of the most are kept") {
    Kept<int> kept(2);
    int made = 0;
    const auto ask = [&](const std::string& key) { return kept.get(key, [&] { return ++made; }); };
    for (const char* key : {"a", "b", "c", "d", "e"}) ask(key);
    CHECK(made == 5);
    CHECK(ask("d") == 4);
    CHECK(ask("e") == 5);
    CHECK(ask("a") == 6);
}
