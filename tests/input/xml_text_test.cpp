#include "input/encoding.hpp"

#include <catch2/catch.hpp>

using wayfolio::input::xml_text;

TEST_CASE("text for XML: marks of the language are escaped, all other text stays as it is") {
    CHECK(xml_text(R"(a < b && "c" > d)") == "a &lt; b &amp;&amp; &quot;c&quot; &gt; d");
    CHECK(xml_text("Straße \xE2\x80\xAF \n\t ]]>") == "Straße \xE2\x80\xAF \n\t ]]&gt;");
}

TEST_CASE("characters that XML 1.0 forbids become spaces") {
    CHECK(xml_text(std::string("a\0b\x1F\r", 5)) == "a b  ");
    CHECK(xml_text("a\xEF\xBF\xBE" "b\xEF\xBF\xBF") == "a b ");
    CHECK(xml_text("\xEF\xBF\xBD") == "\xEF\xBF\xBD");
}
