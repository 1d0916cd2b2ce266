#include "report/model/text.hpp"
#include "report/words/names.hpp"
#include "report/words/shown.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using report::Emphasis;

TEST_CASE("own wording marks symbols with one star and strong words with two") {
    const auto text = report::marked("the brackets measure *M*; **fail**");
    CHECK(text.words() == "the brackets measure M; fail");
    CHECK(text.spans()[1] == report::Span{"M", Emphasis::Symbol});
    CHECK(text.spans()[3] == report::Span{"fail", Emphasis::Strong});
}

TEST_CASE("words of the document are never read as marks") {
    CHECK(report::Text("part *12* of **3**").spans().size() == 1);
}

TEST_CASE("a result and its U are rounded alike") {
    CHECK(report::result_text({}, units::micrometre(29.123), units::Deviation(units::micrometre(7.53))) == "29.1\u00a0±\u202f7.5\u202fµm");
    CHECK(report::result_text({}, units::micrometre(0.996), units::Deviation(units::micrometre(0.0996))) ==
          "1.00\u00a0±\u202f0.10\u202fµm");
    CHECK(report::result_text({}, units::micrometre(5.55), std::nullopt) == "5.5\u202fµm");
}

TEST_CASE("degrees stand against their number, other units after a thin space") {
    CHECK(report::with_unit("12", "°") == "12°");
    CHECK(report::with_unit("12", "µm") == "12\u202fµm");
}

TEST_CASE("pitch and yaw follow the vertical axis of the machine (ISO 841)") {
    document::Document document;
    document.machine = document::Machine{.vertical = "Z"};
    CHECK(report::quantity_title(document, *document::error_symbol("EBX")) == "Pitch EBX");
    CHECK(report::quantity_title(document, *document::error_symbol("ECX")) == "Yaw ECX");
    document.machine->vertical = "Y";
    CHECK(report::quantity_title(document, *document::error_symbol("ECX")) == "Pitch ECX");
    document.machine->vertical = "";
    CHECK(report::quantity_title(document, *document::error_symbol("EBX")) == "Rotation about Y EBX");
    CHECK(report::quantity_title(document, *document::error_symbol("EAX")) == "Roll EAX");
}
