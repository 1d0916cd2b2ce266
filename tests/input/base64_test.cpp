#include "input/base64.hpp"

#include <catch2/catch.hpp>

using wayfolio::input::decoded_base64;

TEST_CASE("base64 gives its bytes back, with every length of padding (RFC 4648 clause 10)") {
    CHECK(decoded_base64("") == "");
    CHECK(decoded_base64("Zg==") == "f");
    CHECK(decoded_base64("Zm8=") == "fo");
    CHECK(decoded_base64("Zm9v") == "foo");
    CHECK(decoded_base64("Zm9vYmFy") == "foobar");
}
