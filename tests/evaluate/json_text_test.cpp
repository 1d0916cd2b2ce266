#include "evaluate/written/json_lines.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <limits>

using namespace wayfolio::evaluate;

TEST_CASE("a number that is not finite is written into no JSON, however deep it stands") {
    using Limits = std::numeric_limits<double>;
    for (const double value : {Limits::quiet_NaN(), Limits::infinity(), -Limits::infinity()}) {
        const Json within{{"a", Json::array({1.5, Json{{"b", value}}})}};
        for (const Json& json : {Json(value), Json::array({0.5, value}), within}) CHECK_THROWS_AS(to_text(json), std::logic_error);
    }
}

TEST_CASE("numbers are written by their shortest text and read back as the same double") {
    using Limits = std::numeric_limits<double>;
    for (const double value : {0.1, 1.0 / 3, 1e-307, 5e-324, -2.5e22, 1e21, Limits::max(), Limits::lowest(), Limits::min(), 100.0}) {
        const std::string text = to_text(value);
        CAPTURE(text);
        CHECK(std::strtod(text.c_str(), nullptr) == value);
        CHECK(Json::parse(text).get<double>() == value);
    }
    CHECK(to_text(Json{{"mean", 0.1}, {"count", 3}, {"seed", 18446744073709551615U}, {"none", nullptr}, {"so", true}}) ==
          "{\n  \"mean\": 0.1,\n  \"count\": 3,\n  \"seed\": 18446744073709551615,\n  \"none\": null,\n  \"so\": true\n}\n");
    CHECK(to_text(Json::array()) == "[]\n");
    CHECK(to_text(Json{{"a", Json::object()}}) == "{\n  \"a\": {}\n}\n");
}

TEST_CASE("texts are written as they are, and what is no UTF-8 is marked") {
    const std::string texts = "quote \" stroke \\ line\nend \u00b5m \U0001d6fc";
    CHECK(Json::parse(to_text(texts)).get<std::string>() == texts);
    CHECK_THAT(to_text(texts), Catch::Contains("\u00b5m"));
    CHECK(to_text(std::string("\xff")) == "\"\ufffd\"\n");
}

TEST_CASE("what is told thing by thing is written as the same put together first") {
    const Json whole{{"none", nullptr}, {"so", true}, {"n", 3U}, {"minus", -4}, {"x", 0.1}, {"minus_nought", -0.0},
                     {"word", "a \"b\" \xff"}, {"list", {1.5, "c", Json::array(), Json::object()}}, {"inner", {{"a", {{"b", 1.0}}}}},
                     {"last", {0.5, 2.0}}};
    JsonLines told;
    write_object(told, [&] {
        told.key("none");
        told.none();
        told.add("so", true);
        told.add("n", 3U);
        told.add("minus", -4);
        told.add("x", 0.1);
        told.add("minus_nought", -0.0);
        told.add("word", "a \"b\" \xff");
        told.key("list");
        write_array(told, [&] {
            told.value(1.5);
            told.value("c");
            write_array(told, [] {});
            write_object(told, [] {});
        });
        told.key("inner");
        write_object(told, [&] { told.add("a", Json{{"b", 1.0}}); });
        told.add("last", std::vector<double>{0.5, 2.0});
    });
    CHECK(std::move(told).taken() + "\n" == to_text(whole));
    JsonLines part(2), around;
    part.json(whole);
    write_array(around, [&] {
        write_array(around, [&] {
            around.written(std::move(part).taken());
            around.value(1U);
        });
    });
    CHECK(std::move(around).taken() + "\n" == to_text(Json::array({Json::array({whole, 1})})));
    JsonLines endless;
    CHECK_THROWS_AS(endless.number(std::numeric_limits<double>::infinity()), std::logic_error);
}
