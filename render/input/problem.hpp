#pragma once
#include <cstddef>
#include <exception>
#include <string>
#include <vector>

namespace wayfolio::input {

/// A place in an input file. Line and column count from 1 (column in bytes); 0 where unknown.
struct Place {
    std::size_t line = 0, column = 0;
    std::string pointer;  ///< JSON Pointer (RFC 6901), "" for the whole document
};

/// One fault of an input: where, what was found, what was expected, and a hint on the way out.
struct Problem {
    std::string file;
    Place place;
    std::string found, expected, hint;  ///< hint may be empty
};

/// One line for a terminal: `file:line:column: pointer: found …; expected … (hint)`.
std::string to_text(const Problem& problem);

/// The input is wrong. Carries every fault found (at most `cap`), in document order.
class InputRejected : public std::exception {
public:
    static constexpr std::size_t cap = 50;
    explicit InputRejected(std::vector<Problem> problems);
    [[nodiscard]] const std::vector<Problem>& problems() const { return problems_; }
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::vector<Problem> problems_;
    std::string text_;
};

/// An input file is not there or cannot be opened.
class InputMissing : public std::exception {
public:
    InputMissing(std::string path, std::string reason);
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

}  // namespace wayfolio::input
