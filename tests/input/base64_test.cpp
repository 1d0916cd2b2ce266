#include "input/encoding.hpp"

#include <catch2/catch.hpp>

using wayfolio::input::base64, wayfolio::input::decoded_base64;

TEST_CASE("base64 gives its bytes back, with every length of padding (RFC 4648 clause 10)") {
    CHECK(decoded_base64("") == "");
    CHECK(decoded_base64("Zg==") == "f");
    CHECK(decoded_base64("Zm8=") == "fo");
    CHECK(decoded_base64("Zm9v") == "foo");
    CHECK(decoded_base64("Zm9vYmFy") == "foobar");
}

TEST_CASE("bytes become base64 with padding (RFC 4648 clause 10)") {
    CHECK(base64("") == "");
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foobar") == "Zm9vYmFy");
    const std::string bytes("\0\xff", 2);
    CHECK(decoded_base64(base64(bytes)) == bytes);
}
