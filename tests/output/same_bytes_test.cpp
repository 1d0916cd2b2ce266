#include "output/output.hpp"
#include "support/golden.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using support::run;
using support::TemporaryFolder;

namespace {

const output::Metadata about_report{.title = "Report", .author = "", .subject = "", .keywords = "", .created = "2026-03-02"};

/// PDF, SVG and PNG of the sample pages, one after the other.
std::string all_outputs() {
    return output::pdf(two_pages(), about_report, shaper()) + output::svg(one_figure(), about_report, shaper()) +
           output::png(one_figure(), shaper());
}

/// Runs this test program again under another environment and gives what it drew.
std::string drawn_under(const std::string& environment, const TemporaryFolder& folder) {
    const std::string file = folder / "drawn", self = std::filesystem::read_symlink("/proc/self/exe");
    const support::Ran ran = run("env -i " + environment + " WAYFOLIO_TEST_FILE=" + file + " " + self + " '[.draw]'");
    CHECK(ran.code == 0);
    return support::file_bytes(file);
}

}  // namespace

TEST_CASE("writes all outputs to the file that WAYFOLIO_TEST_FILE names", "[.draw]") {
    const char* file = std::getenv("WAYFOLIO_TEST_FILE");
    REQUIRE(file);
    std::ofstream(file, std::ios::binary) << all_outputs();
}

TEST_CASE("the same pages give the same bytes twice in one process") {
    const std::string first = all_outputs();
    const std::string other = output::svg(two_pages()[0], about_report, shaper());
    CHECK(all_outputs() == first);
}

TEST_CASE("time zone, language, home and host fonts change no byte, and nothing is written to the home") {
    const TemporaryFolder folder;
    const std::string home = folder / "home", fonts = folder / "fonts.conf";
    std::filesystem::create_directory(home);
    std::ofstream(fonts)
        << "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>/usr/share/fonts/truetype</dir>"
           "<match target=\"font\"><edit name=\"hintstyle\"><const>hintfull</const></edit></match></fontconfig>";
    const std::string plain = drawn_under("HOME=/nonexistent", folder);
    CHECK(plain == all_outputs());
    CHECK(drawn_under(
              "TZ=Asia/Tokyo LANG=de_DE.UTF-8 LC_ALL=de_DE.UTF-8 LANGUAGE=sr:bg:el HOME=" + home + " FONTCONFIG_FILE=" + fonts,
              folder) == plain);
    CHECK(drawn_under("TZ=America/New_York PANGO_LANGUAGE=ru:el LANG=tr_TR.UTF-8 HOME=" + home + " SOURCE_DATE_EPOCH=12345",
                      folder) == plain);
    CHECK(std::filesystem::is_empty(home));
}
