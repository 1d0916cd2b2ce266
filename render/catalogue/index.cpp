#include "catalogue/index.hpp"
#include "archive/record/record.hpp"
#include "catalogue/query.hpp"
#include "catalogue/visit.hpp"
#include "files/unfinished.hpp"
#include "input/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <map>

namespace wayfolio::catalogue {
namespace {

using database::Access;
using database::Database;
using database::DatabaseFailed;
using database::Statement;

namespace fs = std::filesystem;
using files::OutputFailed;

constexpr int index_version = 6;
constexpr int application = 0x57466F6C;  // "WFol": says in the file's head whose it is (sqlite.org/fileformat2.html, 1.3.17)

constexpr const char* schema = R"(
CREATE TABLE visit(id INTEGER PRIMARY KEY, folder TEXT NOT NULL UNIQUE, stamp TEXT NOT NULL, record TEXT NOT NULL, job TEXT NOT NULL,
  revision INTEGER NOT NULL, title TEXT NOT NULL, customer TEXT NOT NULL, machine TEXT NOT NULL, serial TEXT NOT NULL,
  day TEXT NOT NULL, fingerprint TEXT NOT NULL, notice TEXT NOT NULL, vertical TEXT NOT NULL,
  replaces_job TEXT NOT NULL, replaces_revision REAL, verdict TEXT NOT NULL, found TEXT NOT NULL,
  due TEXT NOT NULL, replaced INTEGER NOT NULL DEFAULT 0, fault TEXT NOT NULL);
CREATE TABLE result(visit INTEGER NOT NULL, series TEXT NOT NULL, error TEXT NOT NULL, axis TEXT NOT NULL, state TEXT NOT NULL,
  parameter TEXT NOT NULL, unit TEXT NOT NULL, value REAL, expanded REAL, lim REAL, outcome TEXT NOT NULL,
  reason TEXT NOT NULL, reference_line TEXT NOT NULL, low REAL, high REAL, answers INTEGER NOT NULL);
CREATE TABLE instrument(visit INTEGER NOT NULL, serial TEXT NOT NULL);
CREATE INDEX instrument_serial ON instrument(serial, visit);
CREATE INDEX instrument_visit ON instrument(visit);
CREATE INDEX visit_serial ON visit(serial);
CREATE INDEX visit_day ON visit(day);
CREATE INDEX visit_due ON visit(due);
CREATE INDEX visit_job ON visit(job, revision);
CREATE INDEX visit_replaces ON visit(replaces_job);
CREATE INDEX result_visit ON result(visit, axis, outcome);
CREATE INDEX result_outcome ON result(outcome, axis, visit);)";

int pragma(const Database& database, const char* name) {
    Statement statement(database, fmt::format("PRAGMA {}", name));
    return statement.next() ? static_cast<int>(statement.whole(0)) : 0;
}

/// All that the database holds, as it was made: tables, indexes, and whatever somebody else put in.
std::vector<std::string> made_of(const Database& database) {
    Statement all(database, "SELECT type || ' ' || name || ' ' || coalesce(sql, '') FROM sqlite_schema ORDER BY 1");
    std::vector<std::string> found;
    while (all.next()) found.push_back(all.text(0));
    return found;
}

bool has_our_tables(const Database& database) {
    Database ours(":memory:", Access::Write);
    ours.run(schema);
    return made_of(database) == made_of(ours);
}

/// Why the index cannot be used, or "".
std::string unusable(const fs::path& index) {
    try {
        // Opened for writing: what a killed run left half done is rolled back at the first look.
        const Database database(index, Access::Write);
        if (pragma(database, "application_id") != application) return "is not an index of this program";
        if (const int found = pragma(database, "user_version"); found != index_version)
            return fmt::format("has version {}; this program needs {}", found, index_version);
        Statement check(database, "PRAGMA quick_check(1)");
        return check.next() && check.text(0) == "ok" && has_our_tables(database) ? "" : "is damaged";
    } catch (const DatabaseFailed& failed) {
        if (failed.damaged()) return "is damaged";
        throw OutputFailed(index, std::string(failed.what()) + "; --index FILE puts it elsewhere", /*cannot_create=*/true);
    }
}

/// SQLite would wait for ever for a pipe in the place of the index or of a file that goes with it.
void require_no_pipe(const fs::path& index) {
    for (const char* ending : {"", "-journal", "-wal", "-shm"}) {
        const fs::path file = index.string() + ending;
        std::error_code none;
        if (const auto found = fs::status(file, none); fs::exists(found) && !fs::is_regular_file(found) && !fs::is_directory(found))
            throw input::InputMissing(file.string(), "is a pipe or a device, where a regular file must be");
    }
}

/// A file of somebody else's must not be replaced: only what bears our name or our mark may be.
void require_ours(const fs::path& index, const fs::path& usual) {
    std::error_code none;
    if (!fs::exists(index, none) || index == usual) return;
    std::array<char, 72> head{};
    std::ifstream(index, std::ios::binary).read(head.data(), head.size());
    const std::string_view mark(head.data() + 68, 4);
    if (fs::is_directory(index) || (mark != "WFol" && fs::file_size(index) > 0))
        throw OutputFailed(index, "exists and is not an index of this program", /*cannot_create=*/true);
}

/// The gravest standing of the results that count, as its word.
template <class Counts>
std::string_view gravest(const std::vector<Result>& results, Counts counts) {
    auto worst = evaluate::Standing::NoLimit;
    for (const Result& one : results)
        if (counts(one)) worst = std::min(worst, standing_of(one.outcome, one.value, one.limit));
    return evaluate::word(worst);
}

std::string_view verdict_as_left(const Visit& visit) { return gravest(visit.results, [](const Result& one) { return one.answers; }); }

/// Empty where only one state was measured, or none of the first has a limit.
std::string_view verdict_as_found(const Visit& visit) {
    if (visit.first_state.empty()) return "";
    const auto found = gravest(visit.results, [&](const Result& one) { return one.state == visit.first_state; });
    return found == evaluate::word(evaluate::Standing::NoLimit) ? "" : found;
}

struct Writer {
    Statement visit, result, instrument, forget_results, forget_instruments, forget;
    explicit Writer(const Database& database)
        : visit(database,
                "INSERT INTO visit(folder, stamp, record, job, revision, title, customer, machine, serial, day, fingerprint, notice, "
                "vertical, replaces_job, replaces_revision, verdict, found, due, fault) "
                "VALUES(?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)"),
          result(database, "INSERT INTO result VALUES(?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)"),
          instrument(database, "INSERT INTO instrument VALUES(?,?)"),
          forget_results(database, "DELETE FROM result WHERE visit = ?"),
          forget_instruments(database, "DELETE FROM instrument WHERE visit = ?"),
          forget(database, "DELETE FROM visit WHERE id = ?") {}

    void remove(std::int64_t id) {
        forget_results.bind(id).run();
        forget_instruments.bind(id).run();
        forget.bind(id).run();
    }
    void add(const Database& database, const Visit& v) {
        const std::optional<double> replaced = v.replaces_revision ? std::optional<double>(*v.replaces_revision) : std::nullopt;
        visit.bind(v.folder)
            .bind(v.stamp)
            .bind(fs::path(v.folder).parent_path().string())
            .bind(v.job)
            .bind(std::int64_t{v.revision})
            .bind(v.title)
            .bind(v.customer)
            .bind(v.machine);
        visit.bind(v.serial)
            .bind(v.day)
            .bind(v.fingerprint)
            .bind(v.notice)
            .bind(v.vertical)
            .bind(v.replaces_job)
            .bind(replaced)
            .bind(verdict_as_left(v))
            .bind(verdict_as_found(v))
            .bind(v.due)
            .bind(v.fault)
            .run();
        const std::int64_t id = database.last_id();
        for (const std::string& serial : v.instruments) instrument.bind(id).bind(serial).run();
        for (const Result& r : v.results) {
            result.bind(id)
                .bind(r.series)
                .bind(r.error)
                .bind(r.axis)
                .bind(r.state)
                .bind(r.parameter)
                .bind(r.unit)
                .bind(r.value)
                .bind(r.expanded)
                .bind(r.limit)
                .bind(r.outcome)
                .bind(r.reason);
            result.bind(r.reference_line).bind(r.low).bind(r.high).bind(std::int64_t{r.answers}).run();
        }
    }
};

struct Known {
    std::int64_t id;
    std::string stamp, fault;
};

std::map<std::string, Known> known_visits(const Database& database) {
    std::map<std::string, Known> known;
    Statement all(database, "SELECT folder, id, stamp, fault FROM visit");
    while (all.next()) known.emplace(all.text(0), Known{all.whole(1), all.text(2), all.text(3)});
    return known;
}

/// A revision is replaced when a later one of its record, or of the same job elsewhere, names it. Jobs without a number are told apart by
/// their records.
constexpr const char* mark_replaced =
    R"(UPDATE visit SET replaced = EXISTS(SELECT 1 FROM visit AS later WHERE later.replaces_job = visit.job AND later.job <> ''
  AND later.id <> visit.id AND later.replaces_job <> ''
  AND (later.replaces_revision = visit.revision OR (later.replaces_revision IS NULL AND later.job <> visit.job)))
OR EXISTS(SELECT 1 FROM visit AS later WHERE visit.job = '' AND later.job = '' AND later.record = visit.record
  AND later.replaces_revision = visit.revision) WHERE fault = '')";

void bring_up_to(Database& database, const fs::path& root, Indexed& done) {
    const Tree tree = find_bags(root);
    database.run("BEGIN IMMEDIATE");
    std::map<std::string, Known> known = known_visits(database);
    Writer writer(database);
    for (const fs::path& bag : tree.bags) {
        const std::string folder = bag == root ? "." : bag.lexically_relative(root).string();
        const auto found = known.find(folder);
        if (found != known.end() && found->second.stamp == stamp_of(bag)) {
            ++done.unchanged;
            if (!found->second.fault.empty()) done.problems.push_back(folder + ": " + found->second.fault);
        } else {
            const Visit visit = read_visit(root, bag);
            if (found != known.end()) writer.remove(found->second.id);
            writer.add(database, visit);
            ++done.read;
            if (!visit.fault.empty()) done.problems.push_back(folder + ": " + visit.fault);
        }
        if (found != known.end()) known.erase(found);
    }
    for (const auto& [folder, gone] : known) writer.remove(gone.id);
    done.gone = known.size();
    done.problems.insert(done.problems.end(), tree.unreadable.begin(), tree.unreadable.end());
    if (done.read + done.gone > 0) database.run(mark_replaced);
    database.run("COMMIT");
}

void build_beside(const fs::path& root, const fs::path& index, Indexed& done) {
    files::Unfinished beside(index, files::Unfinished::Kind::File);
    {
        Database database(beside.path(), Access::Write);
        database.run("PRAGMA journal_mode = OFF");  // nothing is rolled back: what fails is thrown away
        database.run(schema);
        database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", application, index_version).c_str());
        bring_up_to(database, root, done);
    }
    // What a killed run left of the old file must not be played into the new one.
    std::error_code ignored;
    fs::remove(index.string() + "-journal", ignored);
    beside.move_into_place();
}

/// False where what the index holds turns out to be damaged; nothing is changed then.
bool updated(const fs::path& root, const fs::path& index, Indexed& done) {
    try {
        Database database(index, Access::Write);
        bring_up_to(database, root, done);
        return true;
    } catch (const DatabaseFailed& failed) {
        if (!failed.damaged()) throw;
        return false;
    }
}

}  // namespace

fs::path index_in(const fs::path& root) { return root / archive::catalogue_index; }

Indexed update_index(const fs::path& root, const fs::path& index) {
    std::error_code none;
    if (!fs::is_directory(root, none)) throw input::InputMissing(root.string(), "is not a folder");
    require_no_pipe(index);
    require_ours(index, index_in(root));
    Indexed done;
    try {
        const bool there = fs::exists(index);
        if (there) done.rebuilt = unusable(index);
        if (there && done.rebuilt.empty() && !updated(root, index, done)) {
            done = {};
            done.rebuilt = "is damaged";
        }
        if (!there || !done.rebuilt.empty()) build_beside(root, index, done);
    } catch (const DatabaseFailed& failed) {
        throw OutputFailed(index, std::string(failed.what()) + "; --index FILE puts it elsewhere", /*cannot_create=*/true);
    } catch (const fs::filesystem_error& error) {
        throw OutputFailed(index, error.code().message(), /*cannot_create=*/true);
    }
    return done;
}

Database open_index(const fs::path& index) {
    require_no_pipe(index);
    std::error_code none;
    if (!fs::exists(index, none)) throw input::InputMissing(index.string(), "no index yet: run without --as-indexed");
    try {
        Database database(index, Access::Read);
        if (pragma(database, "application_id") == application && pragma(database, "user_version") == index_version) {
            if (has_our_tables(database)) return database;
            throw DatabaseFailed("other tables", /*damaged=*/true);
        }
    } catch (const DatabaseFailed&) {
        throw input::InputMissing(index.string(), "the index is damaged: run without --as-indexed to rebuild it");
    }
    throw input::InputMissing(index.string(), "is not an index of this version: run without --as-indexed to rebuild it");
}

}  // namespace wayfolio::catalogue
