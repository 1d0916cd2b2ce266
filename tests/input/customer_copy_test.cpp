#include "input/customer_copy.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using input::customer_copy;

TEST_CASE("a document without internal parts is copied byte for byte") {
    const std::string text = "\xEF\xBB\xBF{\"format\":  \"wayfolio-result\" ,\n\t\"x-own\": [1.0, 1e2]}\n";
    const auto copy = customer_copy(text);
    CHECK(copy.bytes == text);
    CHECK(copy.left_out == 0);
    CHECK_FALSE(copy.reduced);
}

TEST_CASE("what is marked internal goes, whatever stands around it, and the copy says so") {
    const std::string said = "\"x-reduced\": \"1 part marked internal left out of this copy\",";
    CHECK(customer_copy(R"({"a": 1, "internal": {"b": [1, "}"]}, "c": 2})").bytes == "{" + said + R"("a": 1, "c": 2})");
    CHECK(customer_copy(R"({"internal": {}, "c": 2})").bytes == "{" + said + R"("c": 2})");
    CHECK(customer_copy("{\"a\": 1,\n \"internal\": {\"remarks\": [\"x\\\"]\"]}\n}").bytes == "{" + said + "\"a\": 1\n}");
    CHECK(customer_copy(R"({"a": [{"internal": {}}]})").bytes == "{" + said + R"("a": [{}]})");
}

TEST_CASE("an internal part spelt with escapes, in lines of their own or after a byte-order mark is found") {
    CHECK(customer_copy("{\"a\": 1, \"\\u0069nternal\": {\"b\": 2}}").left_out == 1);
    const auto copy =
        customer_copy("\xEF\xBB\xBF{\n  \"a\": {\n    \"internal\": {\"x-b\": 2},\n    \"c\": \"\u00b5\"\n  },\n  \"internal\": {}\n}");
    CHECK(copy.left_out == 2);
    CHECK(copy.bytes ==
          "\xEF\xBB\xBF{\"x-reduced\": \"2 parts marked internal left out of this copy\",\n  \"a\": {\n    \"c\": \"\u00b5\"\n  }\n}");
}

TEST_CASE("a text that only speaks of internal matters stays") {
    const std::string text = R"({"remarks": ["internal", "\"internal\": {}"]})";
    CHECK(customer_copy(text).bytes == text);
}

TEST_CASE("a copy of a copy is the same bytes and still says that it was reduced") {
    const auto once = customer_copy(R"({"a": 1, "internal": {"b": 2}})");
    const auto twice = customer_copy(once.bytes);
    CHECK(twice.bytes == once.bytes);
    CHECK(twice.left_out == 0);
    CHECK(twice.reduced);
}
