#include "service/batches/desk.hpp"
#include "files/output_failed.hpp"


namespace wayfolio::service {
namespace {

using database::Access;
using database::Database;
using database::Statement;
using database::Transaction;

constexpr int application = 0x5746626A;  // "WFbj": says in the file's head whose it is (sqlite.org/fileformat2.html, 1.3.17)
constexpr int most_tries = 3;            // by choice: a job that ends its process again and again does not keep others from work

constexpr const char* tables = R"(
CREATE TABLE batch(number INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL UNIQUE, ended INTEGER NOT NULL DEFAULT 0);
CREATE TABLE file(batch INTEGER NOT NULL, name TEXT NOT NULL, bytes BLOB NOT NULL);
CREATE UNIQUE INDEX file_name ON file(batch, name);
CREATE TABLE job(batch INTEGER NOT NULL, place INTEGER NOT NULL, name TEXT NOT NULL, document TEXT NOT NULL, layout TEXT NOT NULL,
  paper TEXT NOT NULL, report INTEGER NOT NULL, evaluation INTEGER NOT NULL, state TEXT NOT NULL, claim TEXT NOT NULL DEFAULT '',
  tries INTEGER NOT NULL DEFAULT 0, ended INTEGER NOT NULL DEFAULT 0, line TEXT NOT NULL DEFAULT '', PRIMARY KEY(batch, place));
CREATE INDEX job_state ON job(state, batch, place);
CREATE INDEX job_ended ON job(batch, ended);
CREATE TABLE result(batch INTEGER NOT NULL, name TEXT NOT NULL, bytes BLOB NOT NULL);
CREATE UNIQUE INDEX result_name ON result(batch, name);)";

std::int64_t pragma(const Database& database, const std::string& name) {
    Statement statement(database, "PRAGMA " + name);
    return statement.next() ? statement.whole(0) : 0;
}

bool is_empty(const Database& database) {
    Statement any(database, "SELECT count(*) FROM sqlite_schema");
    return any.next() && any.whole(0) == 0;
}

/// SQLite would wait for ever for a pipe.
void require_regular(const std::filesystem::path& file) {
    std::error_code none;
    if (std::filesystem::exists(file, none) && !std::filesystem::is_regular_file(file, none))
        throw files::OutputFailed(file.string(), "is no regular file", /*cannot_create=*/true);
}

Database opened(const std::filesystem::path& file) {
    require_regular(file);
    try {
        Database database(file, Access::Write);
        database.run("PRAGMA synchronous = EXTRA");  // what was acknowledged outlives also a loss of power
        Transaction whole(database);
        if (is_empty(database)) database.run((std::string(tables) + "PRAGMA application_id = " + std::to_string(application)).c_str());
        if (pragma(database, "application_id") != application)
            throw files::OutputFailed(file.string(), "exists and holds no batches of this program", /*cannot_create=*/true);
        whole.commit();
        return database;
    } catch (const database::DatabaseFailed& failed) {
        throw files::OutputFailed(file.string(), failed.what(), /*cannot_create=*/true);
    }
}

std::string_view word(batch::State state) {
    return state == batch::State::Done ? "done" : state == batch::State::Faulty ? "faulty" : "failed";
}

std::size_t& count_of(BatchCounts& counts, const std::string& state) {
    if (state == "waiting") return counts.waiting;
    if (state == "at work") return counts.at_work;
    if (state == "done") return counts.done;
    if (state == "faulty") return counts.faulty;
    return state == "failed" ? counts.failed : counts.cancelled;
}

void insert_jobs(Database& database, std::int64_t number, const PostedBatch& posted) {
    Statement file(database, "INSERT INTO file VALUES(?, ?, ?)");
    for (const auto& [name, bytes] : posted.files) file.bind(number).bind(name).bind_bytes(bytes).run();
    Statement job(database,
                  "INSERT INTO job(batch, place, name, document, layout, paper, report, evaluation, state) "
                  "VALUES(?, ?, ?, ?, ?, ?, ?, ?, 'waiting')");
    std::int64_t place = 0;
    for (const batch::Job& one : posted.jobs)
        job.bind(number)
            .bind(place++)
            .bind(one.name)
            .bind(one.from.string())
            .bind(one.layout)
            .bind(one.paper)
            .bind(std::int64_t{one.wanted.report})
            .bind(std::int64_t{one.wanted.evaluation})
            .run();
}

}  // namespace

Desk::Desk(const std::filesystem::path& file) : database_(opened(file)) {}

std::optional<std::int64_t> Desk::number_of(const std::string& batch) {
    Statement found(database_, "SELECT number FROM batch WHERE name = ?");
    found.bind(batch);
    return found.next() ? std::optional(found.whole(0)) : std::nullopt;
}

void Desk::begin_again() {
    database_.run("UPDATE job SET state = 'waiting', claim = '', tries = tries - 1 WHERE state = 'at work'");
}

std::optional<Desk::Taken> Desk::take_in(const PostedBatch& posted, std::size_t most_waiting) {
    Transaction whole(database_);
    if (const auto number = number_of(posted.name)) {
        Statement again(database_, "UPDATE job SET state = 'waiting' WHERE batch = ? AND state = 'cancelled'");
        again.bind(*number).run();
        const bool goes_on = database_.changed() > 0;
        whole.commit();
        return goes_on ? Taken::GoesOn : Taken::WasThere;
    }
    Statement waiting(database_, "SELECT count(*) FROM job WHERE state = 'waiting'");
    if (waiting.next() && static_cast<std::size_t>(waiting.whole(0)) + posted.jobs.size() > most_waiting) return std::nullopt;
    Statement made(database_, "INSERT INTO batch(name) VALUES(?)");
    made.bind(posted.name).run();
    insert_jobs(database_, database_.last_id(), posted);
    whole.commit();
    return Taken::New;
}

std::vector<BatchCounts> Desk::batches() {
    Statement rows(database_,
                   "SELECT batch.name, job.state, count(*) FROM batch LEFT JOIN job ON job.batch = batch.number "
                   "GROUP BY batch.number, job.state ORDER BY batch.number");
    std::vector<BatchCounts> all;
    while (rows.next()) {
        if (all.empty() || all.back().name != rows.text(0)) all.push_back({.name = rows.text(0)});
        const auto count = static_cast<std::size_t>(rows.whole(2));
        count_of(all.back(), rows.text(1)) = count;
        all.back().jobs += count;
    }
    return all;
}

std::optional<BatchCounts> Desk::counts(const std::string& batch) {
    const auto number = number_of(batch);
    if (!number) return std::nullopt;
    BatchCounts counts{.name = batch};
    Statement rows(database_, "SELECT state, count(*) FROM job WHERE batch = ? GROUP BY state");
    rows.bind(*number);
    while (rows.next()) {
        const auto count = static_cast<std::size_t>(rows.whole(1));
        count_of(counts, rows.text(0)) = count;
        counts.jobs += count;
    }
    return counts;
}

std::vector<std::string> Desk::results(const std::string& batch) {
    Statement rows(database_,
                   "SELECT line FROM job JOIN batch ON job.batch = batch.number WHERE batch.name = ? AND job.ended > 0 ORDER BY place");
    rows.bind(batch);
    std::vector<std::string> lines;
    while (rows.next()) lines.push_back(rows.text(0));
    return lines;
}

Outcomes Desk::ended_after(const std::string& batch, std::int64_t number) {
    Outcomes outcomes;
    const auto counted = counts(batch);  // before the lines: what ends in between comes the next time
    outcomes.all = !counted || counted->waiting + counted->at_work == 0;
    Statement rows(database_,
                   "SELECT job.ended, line FROM job JOIN batch ON job.batch = batch.number WHERE batch.name = ? AND job.ended > ? "
                   "ORDER BY job.ended");
    rows.bind(batch).bind(number);
    while (rows.next()) outcomes.lines.emplace_back(rows.whole(0), rows.text(1));
    return outcomes;
}

std::optional<std::string> Desk::result(const std::string& batch, const std::string& file) {
    Statement row(database_,
                  "SELECT bytes FROM result JOIN batch ON result.batch = batch.number WHERE batch.name = ? AND result.name = ?");
    row.bind(batch).bind(file);
    return row.next() ? std::optional(row.bytes(0)) : std::nullopt;
}

bool Desk::cancel(const std::string& batch) {
    Transaction whole(database_);
    const auto number = number_of(batch);
    if (!number) return false;
    Statement all(database_, "UPDATE job SET state = 'cancelled' WHERE batch = ? AND state = 'waiting'");
    all.bind(*number).run();
    whole.commit();
    return true;
}

bool Desk::forget(const std::string& batch) {
    Transaction whole(database_);
    const auto number = number_of(batch);
    if (!number) return false;
    for (const char* sql : {"DELETE FROM result WHERE batch = ?", "DELETE FROM file WHERE batch = ?", "DELETE FROM job WHERE batch = ?",
                            "DELETE FROM batch WHERE number = ?"})
        Statement(database_, sql).bind(*number).run();
    whole.commit();
    return true;
}

std::optional<TakenJob> Desk::take(const std::string& claim) {
    Transaction whole(database_);
    Statement next(database_,
                   "SELECT batch, place, name, document, layout, paper, report, evaluation FROM job WHERE state = 'waiting' "
                   "ORDER BY batch, place LIMIT 1");
    if (!next.next()) return std::nullopt;
    TakenJob taken{.batch = next.whole(0),
                   .place = next.whole(1),
                   .job = {.name = next.text(2),
                           .from = next.text(3),
                           .layout = next.text(4),
                           .paper = next.text(5),
                           .wanted = {.report = next.whole(6) != 0, .evaluation = next.whole(7) != 0}}};
    Statement mine(database_, "UPDATE job SET state = 'at work', claim = ?, tries = tries + 1 WHERE batch = ? AND place = ?");
    mine.bind(claim).bind(taken.batch).bind(taken.place).run();
    whole.commit();
    return taken;
}

std::optional<std::string> Desk::file_of(const TakenJob& taken, const std::string& name) {
    Statement row(database_, "SELECT bytes FROM file WHERE batch = ? AND name = ?");
    row.bind(taken.batch).bind(name);
    return row.next() ? std::optional(row.bytes(0)) : std::nullopt;
}

std::optional<std::pair<TakenJob, std::int64_t>> Desk::taken_by(const std::string& claim) {
    Statement row(database_, "SELECT batch, place, name, tries FROM job WHERE state = 'at work' AND claim = ?");
    row.bind(claim);
    if (!row.next()) return std::nullopt;
    return std::pair{TakenJob{.batch = row.whole(0), .place = row.whole(1), .job = {.name = row.text(2)}}, row.whole(3)};
}

void Desk::end_job(const TakenJob& taken, const batch::Outcome& outcome) {
    Statement(database_, "UPDATE batch SET ended = ended + 1 WHERE number = ?").bind(taken.batch).run();
    Statement(database_,
              "UPDATE job SET state = ?, line = ?, claim = '', ended = (SELECT ended FROM batch WHERE number = ?) "
              "WHERE batch = ? AND place = ?")
        .bind(word(outcome.state))
        .bind(batch::to_line(outcome))
        .bind(taken.batch)
        .bind(taken.batch)
        .bind(taken.place)
        .run();
}

void Desk::finish(const std::string& claim, const batch::Outcome& outcome, const std::map<std::string, std::string>& files) {
    Transaction whole(database_);
    const auto taken = taken_by(claim);
    if (!taken) return;  // its batch was forgotten in the meantime
    Statement result(database_, "INSERT INTO result VALUES(?, ?, ?)");
    for (const auto& [name, bytes] : files) result.bind(taken->first.batch).bind(name).bind_bytes(bytes).run();
    end_job(taken->first, outcome);
    whole.commit();
}

bool Desk::give_up(const std::string& claim, const std::string& reason, bool again) {
    Transaction whole(database_);
    const auto taken = taken_by(claim);
    if (!taken) return false;
    if (again && taken->second < most_tries)
        Statement(database_, "UPDATE job SET state = 'waiting', claim = '' WHERE batch = ? AND place = ?")
            .bind(taken->first.batch)
            .bind(taken->first.place)
            .run();
    else
        end_job(taken->first, {.name = taken->first.job.name, .state = batch::State::Failed, .reason = reason});
    whole.commit();
    return true;
}

}  // namespace wayfolio::service
