#include "archive/verify/verify.hpp"

#include "archive/record/making.hpp"
#include "archive/drawings.hpp"
#include "archive/edited_pdf.hpp"
#include "archive/verify/checks.hpp"
#include "archive/verify/pdf_content.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

std::string carried(const std::string& pdf, const std::string& name) { return archive::carried_files(pdf, "pdf").at(name); }

/// The first page's content with one part replaced.
std::string with_content(const std::string& pdf, const std::string& part, const std::string& other) {
    return edited(pdf, [&](QPDF& file) {
        output::Handle page = file.getAllPages().front(), contents = page.getKey("/Contents");
        contents.replaceStreamData(with(output::text_of(contents.getStreamData()), part, other), output::Handle::newNull(),
                                   output::Handle::newNull());
    });
}

std::string first_content(const std::string& pdf) {
    QPDF file;
    file.processMemoryFile("pdf", pdf.data(), pdf.size());
    output::Handle page = file.getAllPages().front();
    return output::text_of(page.getKey("/Contents").getStreamData());
}

const std::string& good() {
    static const std::string pdf = Drawn(traced).pdf();
    return pdf;
}

void damage(const fs::path& file, const std::string& part, const std::string& other) {
    const std::string changed = with(file_bytes(file), part, other);
    std::ofstream(file, std::ios::binary) << changed;
}

}  // namespace

TEST_CASE("a PDF as it was made holds, whatever was marked internal in its document") {
    for (const fs::path& path : {traced, internal}) {
        const archive::Verification verdict = verdict_of(Drawn(path).pdf());
        CHECK(faults(verdict).empty());
        CHECK(verdict.sound());
        CHECK(verdict.checks.size() == 5);
        for (const archive::Check& check : verdict.checks) CHECK(check.holds == archive::Holds::Yes);
    }
}

TEST_CASE("damage to a PDF is named: a changed reading, number or trace, a missing file, an added file") {
    const std::string document = carried(good(), "wayfolio-result.json"), numbers = carried(good(), "wayfolio-evaluation.json");
    CHECK_THAT(faults(verdict_of(with_carried(good(), "wayfolio-result.json", with(document, "\"AW-", "\"AX-")))),
               Contains("wayfolio-result.json: changed"));
    const std::string changed = with(numbers, "\"mean_positive\": ", "\"mean_positive\": 1");
    CHECK_THAT(faults(verdict_of(with_carried(good(), "wayfolio-evaluation.json", changed))),
               Contains("/mean_positive: 1") && Contains("; evaluated again: "));
    CHECK_THAT(faults(verdict_of(with_carried(good(), "trace.csv", carried(good(), "trace.csv") + "\n"))), Contains("trace.csv: changed"));
    CHECK_THAT(faults(verdict_of(with_carried(good(), "trace.csv", ""))), Contains("trace.csv: missing") && Contains("trace.csv"));
    CHECK_THAT(faults(verdict_of(with_carried(good(), "wayfolio-evaluation.json", ""))), Contains("wayfolio-evaluation.json: missing"));
    CHECK_THAT(faults(verdict_of(with_carried(good(), "other.txt", "x"))), Contains("other.txt: added"));
    CHECK_THAT(faults(verdict_of(with_carried(good(), "wayfolio-inputs.json", ""))), Contains("wayfolio-inputs.json"));
    CHECK_FALSE(verdict_of(std::string("%PDF-1.7 cut off")).sound());
}

TEST_CASE("a list of inputs that does not have the fingerprint which the file states is a named fault") {
    std::string list = carried(good(), "wayfolio-inputs.json");
    const std::size_t digest = list.find("\"sha256\": \"", list.find("\"fonts\"")) + 11;
    list[digest] = list[digest] == '0' ? '1' : '0';
    const archive::Verification flipped = verdict_of(with_carried(good(), "wayfolio-inputs.json", list));
    CHECK_FALSE(flipped.sound());
    for (const char* where : {"/Keywords has sha256:", "dc:identifier in XMP has sha256:", "pdf:Keywords in XMP has sha256:"})
        CHECK_THAT(faults(flipped),
                   Contains(std::string("the list of inputs does not have the fingerprint that the file states: ") + where));
    const archive::Verification unsaid =
        verdict_of(edited(good(), [](QPDF& file) { file.getTrailer().getKey("/Info").removeKey("/Keywords"); }));
    CHECK_THAT(faults(unsaid), Contains("/Keywords has none"));
}

TEST_CASE("a changed bookmark, and an attachment that belongs to the file in another way, are named though made by other versions") {
    const Drawn made(smallest, "report");
    produce::Drawing then = made.drawing();
    then.versions.back().version = "0.0.1";
    const std::string pdf = produce::report_pdf(then);
    REQUIRE(verdict_of(pdf).sound());
    const archive::Verification renamed = verdict_of(edited(pdf, [](QPDF& file) {
        file.getRoot().getKey("/Outlines").getKey("/First").replaceKey("/Title", output::Handle::newUnicodeString("Another title"));
    }));
    CHECK_THAT(faults(renamed), Contains("bookmarks: found \"Another title\", the data give \""));
    const archive::Verification related = verdict_of(edited(pdf, [](QPDF& file) {
        QPDFEmbeddedFileDocumentHelper embedded(file);
        embedded.getEmbeddedFile("wayfolio-result.json")
            ->getObjectHandle()
            .replaceKey("/AFRelationship", output::Handle::newName("/Alternative"));
    }));
    CHECK_THAT(faults(related),
               Contains("attachments: found \"wayfolio-result.json /Alternative\", the data give \"wayfolio-result.json /Source\""));
}

TEST_CASE("what is neither a PDF of this program nor a record gets no verdict") {
    const TemporaryFolder folder;
    const fs::path other = folder.path() / "other", empty = folder.path() / "empty";
    fs::create_directory(other);
    fs::create_directory(empty);
    std::ofstream(other / "letter.txt") << "x";
    const std::string by_another = edited(Drawn(smallest).pdf(), [](QPDF& file) {
        for (const char* key : {"/Names", "/AF", "/Metadata"}) file.getRoot().removeKey(key);
        file.getTrailer().removeKey("/Info");
    });
    CHECK_THROWS_AS(verdict_of(by_another), archive::NothingToVerify);
    CHECK_THROWS_AS(verdict_of(std::string()), archive::NothingToVerify);
    CHECK_THROWS_WITH(verdict_of(file_bytes(smallest)),
                      Contains("JSON, no PDF") && Contains("a PDF that this program made, or the folder of a record"));
    CHECK_THROWS_AS(verdict_of(other), archive::NothingToVerify);
    CHECK_FALSE(verdict_of(empty).sound());
    std::string beheaded = good();
    beheaded[0] = 'x';
    CHECK_FALSE(verdict_of(beheaded).sound());
}

TEST_CASE("a word or a line changed on a page is named with its page") {
    const std::string content = first_content(good());
    const std::size_t last = content.find(")Tj"), shown = content.rfind('(', last);
    const std::string word = content.substr(shown + 1, last - shown - 1), turned(word.rbegin(), word.rend());
    REQUIRE(word != turned);
    const archive::Verification words = verdict_of(with_content(good(), "(" + word + ")Tj", "(" + turned + ")Tj"));
    CHECK_THAT(faults(words), Contains("page 1: found \"") && Contains("\", the data give \""));
    const std::size_t line = content.find(" l\n");
    const std::string drawn = content.substr(content.rfind('\n', line) + 1, line - content.rfind('\n', line));
    const archive::Verification moved = verdict_of(with_content(good(), drawn, "1" + drawn));
    CHECK_THAT(faults(moved), Contains("page 1: lines, places or pictures differ"));
    CHECK_FALSE(words.sound());
    CHECK_FALSE(moved.sound());
}

TEST_CASE("a PDF written anew with the same content is told from the one that was made") {
    CHECK_THAT(faults(verdict_of(edited(good(), [](QPDF&) {}))), Contains("the bytes differ, but words and drawing are the same"));
    CHECK_FALSE(verdict_of(good() + "\n% more").sound());
}

TEST_CASE("every flipped bit is found") {
    for (std::size_t at = 20; at < good().size(); at += good().size() / 12) {
        std::string rotten = good();
        rotten[at] = static_cast<char>(rotten[at] ^ 4);
        INFO("byte " << at);
        CHECK_FALSE(verdict_of(rotten).sound());
    }
}

TEST_CASE("who rewrites the data and draws again gets a file in which all agrees, but another fingerprint") {
    const std::string forged = Drawn(document_of(with(file_bytes(smallest), "2.2", "2.1"))).pdf(), true_one = Drawn(smallest).pdf();
    CHECK(verdict_of(forged).sound());
    const std::string fingerprint = verdict_of(true_one).fingerprint;
    CHECK_THAT(faults(verdict_of(forged, fingerprint)), Contains("given " + fingerprint));
    CHECK(verdict_of(true_one, fingerprint).sound());
    CHECK(verdict_of(true_one, fingerprint.substr(0, 16)).sound());
    CHECK_THAT(faults(verdict_of(true_one, fingerprint.substr(0, 15))), Contains("at least 16 digits"));
}

TEST_CASE("a verdict says which of the two was shown: no accident, or no forgery") {
    const std::string pdf = Drawn(smallest).pdf(), alone = archive::verification_text(verdict_of(pdf));
    CHECK_THAT(alone, Contains("Shown: no accidental change.") && Contains("Not detectable: deliberate rewriting of data and report") &&
                          Contains("--against"));
    const std::string against = archive::verification_text(verdict_of(pdf, verdict_of(pdf).fingerprint));
    CHECK_THAT(against, Contains("Shown: no deliberate rewriting of data and report") && !Contains("Not detectable"));
    const auto json = nlohmann::json::parse(archive::verification_json(verdict_of(pdf + "x")));
    CHECK(json["sound"] == false);
    CHECK(json["checks"].back()["outcome"] == "fails");
    CHECK(json["not_shown"].size() == 1);
}

TEST_CASE("made by other versions, content is compared: the same words hold, other words fail, moved lines are not shown") {
    const Drawn made(smallest);
    produce::Drawing then = made.drawing();
    then.versions.back().version = "0.0.1";
    const std::string pdf = produce::report_pdf(then);
    const archive::Verification same = verdict_of(pdf);
    CHECK(same.sound());
    CHECK_THAT(archive::verification_text(same), Contains("made with libdeflate 0.0.1, now "));
    const archive::Verification other_bytes = verdict_of(edited(pdf, [](QPDF&) {}));
    CHECK(other_bytes.sound());
    CHECK_THAT(archive::verification_text(other_bytes),
               Contains("different bytes from different versions; words and drawing are the same"));
    const std::string content = first_content(pdf);
    const std::size_t line = content.find(" l\n");
    const std::string drawn = content.substr(content.rfind('\n', line) + 1, line - content.rfind('\n', line));
    CHECK_THAT(archive::verification_text(verdict_of(with_content(pdf, drawn, "1" + drawn))), Contains("not shown  pages, drawn again"));
    CHECK_FALSE(verdict_of(with_carried(pdf, "wayfolio-evaluation.json", "{}")).sound());
}

TEST_CASE("what another version or build of this program made is told so where words or numbers differ, and is not called changed") {
    const Drawn made(smallest);
    for (const char* name : {"wayfolio", "wayfolio-build"}) {
        CAPTURE(name);
        produce::Drawing then = made.drawing();
        const auto own = std::ranges::find(then.versions, name, &LibraryVersion::name);
        REQUIRE(own != then.versions.end());
        own->version = "0.0.1";
        const std::string pdf = produce::report_pdf(then);
        const std::string same = archive::verification_text(verdict_of(pdf));
        CHECK_THAT(same, Contains(": unchanged\n") && Contains("made with " + std::string(name) + " 0.0.1, now "));
        // That version wrote another word, and another number.
        const std::string content = first_content(pdf);
        const std::size_t end = content.find(")Tj"), begin = content.rfind('(', end);
        const std::string word = content.substr(begin + 1, end - begin - 1), turned(word.rbegin(), word.rend());
        for (const std::string& other : {with_content(pdf, "(" + word + ")Tj", "(" + turned + ")Tj"),
                                         with_carried(pdf, "wayfolio-evaluation.json", R"({"format": "wayfolio-evaluation"})")}) {
            const archive::Verification verdict = verdict_of(other);
            CHECK(verdict.sound());
            const std::string told = archive::verification_text(verdict);
            CHECK_THAT(told, Contains(": made by another version or build") && !Contains("CHANGED") && !Contains("no accidental change."));
            CHECK_THAT(told, Contains("Not detectable: a change of pages and numbers"));
        }
        // What it carries is held to its digests as ever.
        CHECK_FALSE(verdict_of(with_carried(pdf, "wayfolio-result.json", "{}")).sound());
    }
}

TEST_CASE("a PDF whose list names no build was made by another one") {
    const Drawn made(smallest);
    produce::Drawing then = made.drawing();
    std::erase_if(then.versions, [](const LibraryVersion& one) { return one.name == "wayfolio-build"; });
    CHECK_THAT(archive::verification_text(verdict_of(produce::report_pdf(then))),
               Contains(": unchanged\n") && Contains("made by a build that the list of inputs does not name"));
}

TEST_CASE("the words of a page are read as they were drawn") {
    const archive::PdfContent content = archive::content_of(Drawn(smallest, "report").pdf(), "pdf");
    std::string words;
    for (const archive::PageContent& page : content.pages)
        for (const std::string& text : page.texts) words += text + "\n";
    CHECK_THAT(words, Contains("Systematic positioning error") && Contains("\u00b5m") && !Contains("\uFFFD"));
    CHECK_THAT(content.structure, Contains("/Figure ") && Contains("/TH /Column"));
    CHECK(content.warnings.empty());
}

TEST_CASE("damage to a record is named: changed, missing and added files, manifests, pages, chain") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder), bag = record / "revision-0", spare = folder.path() / "spare";
    const auto after = [&](const auto& change) {
        fs::remove_all(record);
        fs::copy(spare, record, fs::copy_options::recursive);
        change();
        return faults(verdict_of(record));
    };
    fs::copy(record, spare, fs::copy_options::recursive);
    CHECK(after([] {}).empty());
    CHECK_THAT(after([&] { damage(bag / "data/inputs/wayfolio-result.json", "2.2", "2.3"); }),
               Contains("data/inputs/wayfolio-result.json: changed") && Contains("wayfolio-result.json: changed (its SHA-256"));
    CHECK_THAT(after([&] { damage(bag / "data/evaluation.json", "\"value\": ", "\"value\": 1"); }),
               Contains("data/evaluation.json: changed") && Contains("/value: 1"));
    CHECK_THAT(after([&] { fs::remove(bag / "data/figures/01-x-error.svg"); }), Contains("data/figures/01-x-error.svg: missing"));
    CHECK_THAT(after([&] { std::ofstream(bag / "data/figures/99.svg") << "<svg/>"; }), Contains("data/figures/99.svg: added"));
    CHECK_THAT(after([&] { std::ofstream(bag / "note.txt") << "x"; }), Contains("note.txt: added"));
    CHECK_THAT(after([&] { damage(bag / "bag-info.txt", "wayfolio ", "other "); }), Contains("bag-info.txt: changed"));
    CHECK_THAT(after([&] { damage(bag / "manifest-sha256.txt", "data/report.pdf", "data/../../x"); }), Contains("leads out of the bag"));
    CHECK_THAT(after([&] { fs::create_symlink("/etc/passwd", bag / "data/link"); }), Contains("data/link: a link"));
    CHECK_THAT(after([&] { std::ofstream(bag / "data/report.pdf", std::ios::binary) << good(); }),
               Contains("data/report.pdf: changed") && Contains("page 1: "));
    CHECK_THAT(after([&] {
                   fs::rename(bag, record / "revision-1");
                   fs::copy(record / "revision-1", record / "revision-2", fs::copy_options::recursive);
               }),
               Contains("revision-2 names no revision that it replaces"));
    CHECK_THAT(after([&] { fs::remove_all(bag); }), Contains("no finished revision"));
}

TEST_CASE("what was added beside the revisions of a record is named; the index of the catalogue may be there") {
    const TemporaryFolder folder;
    const fs::path record = record_in(folder);
    std::ofstream(record / archive::catalogue_index) << "index";
    CHECK(verdict_of(record).sound());
    std::ofstream(record / "note.txt") << "x";
    fs::create_directory(record / "revision-01");
    fs::create_directory_symlink("/etc", record / "revision-7");
    const std::string named = faults(verdict_of(record));
    for (const char* name : {"note.txt: added", "revision-01: added", "revision-7: added"}) CHECK_THAT(named, Contains(name));
    CHECK_THAT(named, !Contains("sqlite"));
}

TEST_CASE("numbers are compared one by one, by their JSON Pointer") {
    CHECK(archive::number_differences(R"({"a": [1, {"b": 2}]})", R"({"a": [1, {"b": 2}]})").empty());
    CHECK(archive::number_differences(R"({"a": [1, {"b": 2}]})", R"({"a": [1, {"b": 3}]})") ==
          std::vector<std::string>{"/a/1/b: 2; evaluated again: 3"});
    CHECK(archive::number_differences(R"({"c": 1})", R"({"a": 1})").size() == 2);
    CHECK(archive::number_differences("{", "{}") == std::vector<std::string>{"not JSON any more"});
}
