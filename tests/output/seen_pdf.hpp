#pragma once
#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <string>

/// What other programs see in a PDF.
namespace wayfolio::testing {

/// Runs a program on the PDF and gives what it printed.
inline std::string seen_by(const std::string& program, const std::string& pdf, const std::string& after = "") {
    const support::TemporaryFolder folder;
    const support::Ran ran = support::run(program + " " + folder.file("seen.pdf", pdf) + " " + after);
    CHECK(ran.code == 0);
    return ran.out;
}

/// How often a part stands in a text.
inline std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
    return found;
}

}  // namespace wayfolio::testing
