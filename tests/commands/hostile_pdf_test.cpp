#include "commands/program.hpp"
#include "support/hostile_pdf.hpp"

#include <catch2/catch.hpp>

#include <sys/resource.h>

using namespace wayfolio::testing;
using namespace wayfolio::support;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

constexpr auto* twice = "[/FlateDecode /FlateDecode]";

/// PDFs that ask their reader for any amount of time or memory, none of them over 1 MB.
std::map<std::string, std::string> hostile_pdfs() {
    const std::string bomb = packed_twice(2'000'000'000), catalog = "<< /Type /Catalog /Pages 2 0 R >>";
    return {
        {"content", with_content(bomb, twice)},
        {"content-named", with_content_named(20'000)},
        {"one-page-50000-times", with_pages(50'000)},
        {"structure", with_structure("/K [7 0 R 7 0 R]", "/S /P /P 7 0 R /K [7 0 R 7 0 R 7 0 R]")},
        {"outline", with_outline("/First 9 0 R /Next 9 0 R")},
        {"map", with_unicode_map("10000 beginbfrange " + repeated("<0000> <FFFF> <0041> ", 10'000) + "endbfrange")},
        {"marks", with_content(deflated(repeated("/P BMC ", 60'000) + repeated("0 0 m S ", 1'000)), "/FlateDecode")},
        {"attachment", with_attachments(bomb, twice, 1)},
        {"attachments", with_attachments(deflated(std::string(1'000'000, 'a')), "/FlateDecode", 150)},
        {"forms", with_forms(18)},
        {"objects", with_object_stream("10 0", catalog, 1, bomb, twice)},
        {"references", packed_pdf_of({{1, catalog}}, {}, bomb, twice)},
    };
}

struct Bounded {
    Ran ran;
    double seconds;  ///< of the processor
};

/// Runs the program in half a gibibyte.
Bounded bounded(const std::string& arguments) {
#ifdef __SANITIZE_ADDRESS__
    const std::string limit;  // the address sanitizer reserves more than any limit
#else
    const std::string limit = "ulimit -v " + std::to_string(500 * 1024) + "; ";
#endif
    const auto used = [] {
        rusage all{};
        getrusage(RUSAGE_CHILDREN, &all);
        return static_cast<double>(all.ru_utime.tv_sec + all.ru_stime.tv_sec) +
               1e-6 * static_cast<double>(all.ru_utime.tv_usec + all.ru_stime.tv_usec);
    };
    const double before = used();
    const Ran ran = run("(" + limit + "exec " + program + " " + arguments + ")");
    return {ran, used() - before};
}

}  // namespace

TEST_CASE("no command that opens a stranger's PDF can be made to work without end, or to take more than half a gibibyte", "[slow][again]") {
    const TemporaryFolder folder;
    for (const auto& [name, bytes] : hostile_pdfs()) {
        REQUIRE(bytes.size() < 1'000'000);
        const std::string pdf = folder.file(name + ".pdf", bytes), out = folder / (name + "-out.pdf");
        for (const std::string& command :
             {"verify " + pdf, "conformance " + pdf, "redraw " + pdf + " -o " + out, "compare " + pdf + " " + pdf}) {
            const auto [ran, seconds] = bounded(command);
            CAPTURE(command, ran.out.substr(0, 2000), ran.err.substr(0, 2000));
            CHECK(ran.code == (command.starts_with("verify") || command.starts_with("conformance") ? 1 : 65));
            const std::string told = ran.code == 1 ? ran.out : ran.err;
            CHECK_THAT(told, Contains(name + ".pdf"));
            CHECK(seconds < 30);  // unoptimised, with sanitizers
            CHECK_FALSE(fs::exists(out));
            if (name == "objects" || name == "references") CHECK_THAT(told, Contains("its streams unpack to more than"));
        }
    }
}

TEST_CASE("a page that is listed 50 000 times is told from in bounded time by the checker alone", "[again]") {
    const TemporaryFolder folder;
    const auto [ran, seconds] = bounded("conformance " + folder.file("pages.pdf", with_pages(50'000)));
    CHECK(ran.code == 1);
    CHECK_THAT(ran.out, Contains("its streams unpack to more than"));
    CHECK(seconds < 30);
}
