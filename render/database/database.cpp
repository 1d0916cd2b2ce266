#include "database/database.hpp"

#include <sqlite3.h>

namespace wayfolio::database {
namespace {

[[noreturn]] void fail(sqlite3* database, int code) {
    const int kind = code & 0xff;  // the primary code (sqlite.org/rescode.html)
    throw DatabaseFailed(database ? sqlite3_errmsg(database) : sqlite3_errstr(code),
                         kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB || kind == SQLITE_ERROR || kind == SQLITE_SCHEMA);
}

}  // namespace

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
void Statement::Finish::operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }

Database::Database(const std::filesystem::path& file, Access access) {
    sqlite3* opened = nullptr;
    const int flags = access == Access::Read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    const int code = sqlite3_open_v2(file.c_str(), &opened, flags, nullptr);
    handle_.reset(opened);
    if (code != SQLITE_OK) fail(opened, code);
    constexpr int patience_ms = 5000;
    sqlite3_busy_timeout(opened, patience_ms);
}

void Database::run(const char* sql) {
    if (const int code = sqlite3_exec(handle_.get(), sql, nullptr, nullptr, nullptr); code != SQLITE_OK) fail(handle_.get(), code);
}

std::int64_t Database::last_id() const { return sqlite3_last_insert_rowid(handle_.get()); }

std::int64_t Database::changed() const { return sqlite3_changes64(handle_.get()); }

Transaction::~Transaction() {
    if (open_) sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);  // where that fails there is none any more
}

void Transaction::commit() {
    database_.run("COMMIT");
    open_ = false;
}

Statement::Statement(const Database& database, const std::string& sql) : database_(database.handle()) {
    sqlite3_stmt* prepared = nullptr;
    const int code = sqlite3_prepare_v2(database_, sql.data(), static_cast<int>(sql.size()), &prepared, nullptr);
    handle_.reset(prepared);
    require(code);
}

void Statement::require(int code) const {
    if (code != SQLITE_OK) fail(database_, code);
}

Statement& Statement::bind(std::string_view text) {
    require(sqlite3_bind_text(handle_.get(), ++bound_, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT));
    return *this;
}

Statement& Statement::bind(std::int64_t number) {
    require(sqlite3_bind_int64(handle_.get(), ++bound_, number));
    return *this;
}

Statement& Statement::bind_bytes(std::string_view bytes) {
    require(sqlite3_bind_blob64(handle_.get(), ++bound_, bytes.data() != nullptr ? bytes.data() : "", bytes.size(), SQLITE_TRANSIENT));
    return *this;
}

Statement& Statement::bind(const std::optional<double>& number) {
    require(number ? sqlite3_bind_double(handle_.get(), ++bound_, *number) : sqlite3_bind_null(handle_.get(), ++bound_));
    return *this;
}

bool Statement::next() {
    const int code = sqlite3_step(handle_.get());
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail(database_, code);
    return code == SQLITE_ROW;
}

void Statement::run() {
    while (next()) {
    }
    sqlite3_reset(handle_.get());
    bound_ = 0;
}

std::string Statement::text(int column) const {
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(handle_.get(), column));
    return bytes ? std::string(bytes, static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column))) : std::string();
}

std::string Statement::bytes(int column) const {
    const auto* first = static_cast<const char*>(sqlite3_column_blob(handle_.get(), column));
    return first ? std::string(first, static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column))) : std::string();
}

std::int64_t Statement::whole(int column) const { return sqlite3_column_int64(handle_.get(), column); }

std::optional<double> Statement::number(int column) const {
    if (sqlite3_column_type(handle_.get(), column) == SQLITE_NULL) return std::nullopt;
    return sqlite3_column_double(handle_.get(), column);
}

}  // namespace wayfolio::database
