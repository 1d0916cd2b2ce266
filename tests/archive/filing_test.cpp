#include "archive/record/filing.hpp"

#include "archive/drawings.hpp"
#include "files/output_failed.hpp"

#include <catch2/catch.hpp>

#include <set>

namespace {

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

/// The smallest sample as a job of that number.
Drawn job(const std::string& number, int revision = 0) {
    const std::string replaces =
        revision == 0 ? "" : R"("replaces": {"revision": )" + std::to_string(revision - 1) + R"(, "reason": "a unit was wrong"}, )";
    return Drawn(document_of(R"({"format": "wayfolio-result", "version": 1, "job": {"number": ")" + number + R"(", "revision": )" +
                             std::to_string(revision) + ", " + replaces + R"("data_notice": "Invented data"},
      "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0, 100, 200, 300, 400],
                  "runs": [{"approach": "positive", "deviations": [0, 1, 2, 1, 0]}]}]})"));
}

}  // namespace

TEST_CASE("a job is filed once, however often it is asked, and its next revision beside it") {
    const TemporaryFolder folder;
    const Drawn first = job("K-1"), second = job("K-1", 1);
    const archive::Filed filed = archive::file_record(first.drawing(), folder.path());
    CHECK(filed.now);
    CHECK(filed.folder == folder.path() / "K-1/revision-0");
    const fs::file_time_type before = fs::last_write_time(filed.folder);
    const archive::Filed again = archive::file_record(first.drawing(), folder.path());
    CHECK_FALSE(again.now);
    CHECK(again.folder == filed.folder);
    CHECK(fs::last_write_time(filed.folder) == before);
    CHECK(archive::file_record(second.drawing(), folder.path()).now);
    CHECK_FALSE(archive::file_record(first.drawing(), folder.path()).now);  // also when a later one lies beside it
    CHECK(verdict_of(folder.path() / "K-1").sound());
}

TEST_CASE("what would overwrite a revision, or belongs to no job, is not filed") {
    const TemporaryFolder folder;
    const Drawn first = job("K-1");
    archive::file_record(first.drawing(), folder.path());
    Drawn other = job("K-1");
    other.layout = layouts::read_layout("summary", "Letter");
    CHECK_THROWS_WITH(archive::file_record(other.drawing(), folder.path()), Contains("revision 0 exists already"));
    CHECK_THROWS_WITH(archive::file_record(job("").drawing(), folder.path()), Contains("/job") && Contains("number"));
    CHECK(archive::revisions_in(folder.path() / "K-1").size() == 1);
    CHECK_THROWS_AS(archive::file_record(first.drawing(), "/dev/null"), files::OutputFailed);
}

TEST_CASE("no job number leads out of the folder of records or to what lies there already") {
    CHECK(archive::record_name("WF-1001") == "WF-1001");
    std::set<std::string> names;
    for (const char* number : {"../x", "a/b", ".", "..", "revision-0", "wayfolio-catalogue.sqlite", "job-1", "NUL", "a:b", "-rf", "a\nb"})
        names.insert(archive::record_name(number));
    CHECK(names.size() == 11);
    for (const std::string& name : names) {
        CHECK(archive::is_safe_name(name));
        CHECK(name.starts_with("job-"));
        CHECK(name.size() == 20);
    }
    const TemporaryFolder folder;
    CHECK(archive::file_record(job("../../x").drawing(), folder.path()).folder.parent_path().parent_path() == folder.path());
}
