#include "produce/inputs.hpp"
#include "produce/build_digest.hpp"

#include "input/digest.hpp"
#include "document/read_document.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <map>
#include <set>

using namespace wayfolio;
using Catch::Matchers::Contains;
using support::file_bytes;
using support::run;
using support::TemporaryFolder;

namespace {

const std::filesystem::path root = WAYFOLIO_SOURCE_FOLDER;
const LibraryVersions fixed{{"wayfolio", "0"}, {"cairo", "1"}};

/// A document with its evaluation and layout, which a drawing refers to.
struct Made {
    document::Document document;
    evaluate::Evaluation evaluation;
    layouts::Layout layout;

    explicit Made(const std::string& name, const std::string& layout_name = "report", const std::string& paper = "")
        : document(document::read_document(root / name)),
          evaluation(evaluate::evaluate(document)),
          layout(layouts::read_layout(layout_name, paper)) {}
    [[nodiscard]] produce::Drawing drawing(LibraryVersions versions = fixed) const {
        return {document, evaluation, layout, testing::shaper(), std::move(versions)};
    }
    [[nodiscard]] std::string fingerprint(const produce::Product& product = {}) const {
        return produce::inputs_of(drawing(), product).fingerprint;
    }
};

const std::string smallest = "sample-results/smallest.json", internal = "tests/golden/awkward/draft-with-internal-remarks.json";

/// The files that pdfdetach takes out of a PDF, by name.
std::map<std::string, std::string> detached(const std::string& pdf) {
    const TemporaryFolder folder;
    const std::string file = folder.file("report.pdf", pdf), into = folder / "out";
    std::filesystem::create_directory(into);
    REQUIRE(run("pdfdetach -saveall -o " + into + " " + file).code == 0);
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(into)) files[entry.path().filename()] = file_bytes(entry.path());
    return files;
}

}  // namespace

TEST_CASE("a PDF carries document, side files, layouts, list and evaluation byte for byte") {
    const Made made("tests/golden/awkward/trace-beside.json", "summary");
    const auto files = detached(produce::report_pdf(made.drawing()));
    CHECK(files.size() == 6);
    CHECK(files.at("wayfolio-result.json") == file_bytes(root / "tests/golden/awkward/trace-beside.json"));
    CHECK(files.at("trace.csv") == file_bytes(root / "tests/golden/awkward/trace.csv"));
    CHECK(files.at("wayfolio-layout-1.json") == file_bytes(root / "layouts/summary.json"));
    CHECK(files.at("wayfolio-layout-2.json") == file_bytes(root / "layouts/report.json"));
    const auto evaluation = nlohmann::json::parse(files.at("wayfolio-evaluation.json"));
    CHECK(evaluation["document"]["sha256"] == input::sha256_hex(files.at("wayfolio-result.json")));
}

TEST_CASE("the fingerprint is the SHA-256 of the list, and stands in metadata and in short in the foot") {
    const Made made(smallest);
    const std::string pdf = produce::report_pdf(made.drawing()), fingerprint = made.fingerprint();
    CHECK(fingerprint == input::sha256_hex(detached(pdf).at("wayfolio-inputs.json")));
    const TemporaryFolder folder;
    const std::string file = folder.file("report.pdf", pdf);
    CHECK_THAT(run("pdftotext -f 1 -l 1 " + file + " -").out, Contains("fingerprint " + fingerprint.substr(0, 16)));
    CHECK_THAT(run("pdfinfo " + file).out, Contains("fingerprint sha256:" + fingerprint));
    const std::string packet = run("pdfinfo -meta " + file).out;
    CHECK_THAT(packet, Contains("<dc:identifier>sha256:" + fingerprint));
    CHECK_THAT(packet, Contains("wayfolio-result.json sha256:" + made.document.sha256) && Contains("cairo 1"));
}

TEST_CASE("the list names what went in by its digest") {
    const Made made("tests/golden/awkward/logo-beside.json", "summary", "Letter");
    const auto list = nlohmann::json::parse(produce::inputs_of(made.drawing(), {}).list);
    CHECK(list["drawn"] == nlohmann::json{{"what", "report"}, {"paper", "Letter"}});
    CHECK(list["document"]["sha256"] == made.document.sha256);
    CHECK(list["side_files"][0]["sha256"] == input::sha256_hex(file_bytes(root / "tests/golden/awkward/logo.svg")));
    CHECK(list["layouts"].size() == 2);
    CHECK(list["fonts"].size() == testing::shaper().fonts().size());
    CHECK(list["versions"] == nlohmann::json{{"wayfolio", "0"}, {"cairo", "1"}});
}

TEST_CASE("whatever goes in changes the fingerprint") {
    const Made made(smallest);
    std::set<std::string> seen{made.fingerprint(),
                               Made(smallest, "summary").fingerprint(),
                               Made(smallest, "report", "Letter").fingerprint(),
                               made.fingerprint({"x", "error"}),
                               made.fingerprint({"x", "reversal"}),
                               Made("sample-results/nist-sirstv.json").fingerprint(),
                               produce::inputs_of(made.drawing({{"wayfolio", "0"}, {"cairo", "2"}}), {}).fingerprint};
    CHECK(seen.size() == 7);
    Made other("tests/golden/awkward/trace-beside.json");
    const std::string before = other.fingerprint();
    other.document.side_files.front().bytes += "\n";
    CHECK(other.fingerprint() != before);
    CHECK(made.fingerprint() == Made(smallest).fingerprint());
}

TEST_CASE("what is marked internal reaches no byte of the PDF, and the embedded copy says that it was reduced") {
    const Made made(internal);
    const auto files = detached(produce::report_pdf(made.drawing()));
    for (const auto& [name, bytes] : files) CHECK_THAT(bytes, !Contains("INTERNAL"));
    CHECK_THAT(files.at("wayfolio-result.json"), Contains("x-reduced"));
    const auto list = nlohmann::json::parse(files.at("wayfolio-inputs.json")),
               evaluation = nlohmann::json::parse(files.at("wayfolio-evaluation.json"));
    CHECK(list["document"]["reduced"] == true);
    CHECK(list["document"]["sha256"] == input::sha256_hex(files.at("wayfolio-result.json")));
    CHECK(evaluation["document"]["sha256"] == list["document"]["sha256"]);
}

TEST_CASE("the versions in use are those of this program, its build and eight libraries, nine where a logo is an SVG") {
    CHECK(produce::versions_in_use(Made("tests/golden/awkward/logo-beside.json").document).size() == 11);
    const auto versions = produce::versions_in_use(Made(smallest).document);
    REQUIRE(versions.size() == 10);
    CHECK(versions.front() == LibraryVersion{"wayfolio", std::string(version())});
    CHECK(versions[1] == LibraryVersion{"wayfolio-build", std::string(produce::build_digest())});
    for (const LibraryVersion& one : versions)
        if (one.name != "wayfolio-build") CHECK_THAT(one.version, Catch::Matchers::Matches("[0-9]+\\.[0-9]+.*"));
}

TEST_CASE("a side file cannot take the name of a file that the program puts beside it") {
    Made made("tests/golden/awkward/trace-beside.json");
    made.document.side_files.front().name = "wayfolio-result.json";
    CHECK_THROWS_WITH(produce::report_pdf(made.drawing()), Contains("wayfolio-result.json"));
}

TEST_CASE("an SVG figure carries its fingerprint and the numbers that it shows") {
    const Made made(smallest);
    const auto names = produce::figure_names(made.document, made.evaluation);
    const std::string svg = produce::figure_bytes(made.drawing(), names.front(), {produce::FigureFormat::Svg});
    const std::string fingerprint = made.fingerprint({names.front().series, names.front().name});
    CHECK_THAT(svg, Contains("fingerprint&quot;: &quot;sha256:" + fingerprint) || Contains("\"fingerprint\": \"sha256:" + fingerprint));
    CHECK_THAT(svg, Contains("position_unit") && Contains("mean_positive"));
    CHECK_THAT(svg, Contains("fingerprint " + fingerprint.substr(0, 16)));
}
