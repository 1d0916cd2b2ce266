#pragma once
#include "input/json/json_reader.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::input {

/// Collects every fault of one file while it is read, and rejects it once at the end.
class Faults {
public:
    /// Starts with the faults the JSON reader noted. `json` must outlive this.
    Faults(std::string file, const Json& json);

    /// A fault of a value.
    void add(const Value& at, std::string found, std::string expected, std::string hint = {});
    /// A fault of a value, which is shown as it stands.
    void add_wrong(const Value& at, std::string expected, std::string hint = {});
    /// A key that an object lacks.
    void add_missing(const Value& object, std::string_view key, std::string expected, std::string hint = {});
    /// A key that must not stand there; reported at the key.
    void add_key(const Value& member, std::string expected, std::string hint = {});
    /// A fault inside a side file that `mention` names.
    void add_side_file(const Value& mention, Problem problem);

    [[nodiscard]] bool any() const { return !noted_.empty(); }
    /// @throws InputRejected with the first `cap` faults in the file's order, if there is any
    void reject_if_any();

private:
    struct Noted {
        std::size_t line, column;  ///< where the main file says so, for the order
        Problem problem;
    };
    void keep(Noted noted);
    void sort_and_cut();

    std::string file_;
    const Value& root_;
    std::vector<Noted> noted_;
};

}  // namespace wayfolio::input
