#pragma once
#include <cstdint>
#include <exception>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace wayfolio::database {

/// What SQLite reports. `damaged`: the file is no database, or a broken one.
class DatabaseFailed : public std::exception {
public:
    DatabaseFailed(std::string text, bool damaged) : text_(std::move(text)), damaged_(damaged) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
    [[nodiscard]] bool damaged() const { return damaged_; }

private:
    std::string text_;
    bool damaged_;
};

enum class Access { Read, Write };

/// An open database of SQLite. For one thread at a time.
class Database {
public:
    /// @throws DatabaseFailed
    Database(const std::filesystem::path& file, Access access);
    void run(const char* sql);
    [[nodiscard]] std::int64_t last_id() const;
    /// Rows that the last statement inserted, changed or deleted.
    [[nodiscard]] std::int64_t changed() const;
    [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    std::unique_ptr<sqlite3, Close> handle_;
};

/// All of what is written while it lives, or nothing of it. It waits for other writers first.
class Transaction {
public:
    explicit Transaction(Database& database) : database_(database) { database_.run("BEGIN IMMEDIATE"); }
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

private:
    Database& database_;
    bool open_ = true;
};

/// A prepared statement; values are bound, never pasted into its text.
class Statement {
public:
    Statement(const Database& database, const std::string& sql);
    Statement& bind(std::string_view text);
    Statement& bind(std::int64_t number);
    /// Any bytes, as a BLOB.
    Statement& bind_bytes(std::string_view bytes);
    Statement& bind(const std::optional<double>& number);
    /// Gives the next row; false after the last.
    bool next();
    /// Runs to the end, then can be bound anew.
    void run();
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::string bytes(int column) const;
    [[nodiscard]] std::int64_t whole(int column) const;
    [[nodiscard]] std::optional<double> number(int column) const;

private:
    void require(int code) const;
    struct Finish {
        void operator()(sqlite3_stmt* handle) const;
    };
    sqlite3* database_;
    std::unique_ptr<sqlite3_stmt, Finish> handle_;
    int bound_ = 0;
};

}  // namespace wayfolio::database
