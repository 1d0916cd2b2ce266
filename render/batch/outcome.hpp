#pragma once
#include "input/problem.hpp"
#include "produce/inputs.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::batch {

/// What a drawing came from; two that are the same give the same bytes.
struct Key {
    std::string fingerprint;                        ///< of the report (produce::Inputs)
    std::string document, layout, fonts, versions;  ///< digests of parts of it: they say why two differ
    friend bool operator==(const Key&, const Key&) = default;
};
Key key_of(const produce::InputList& inputs);

/// "another document, another layout": how `now` differs; "" where it does not.
std::string difference(const Key& before, const Key& now);

struct WrittenFile {
    std::string file, sha256;
    std::size_t bytes = 0;
};

enum class State { Done, Faulty, Failed };  ///< Faulty: by its input, and again if it is tried again; Failed: by the world

struct Outcome {
    std::string name;
    State state = State::Done;
    Key key{};
    std::vector<WrittenFile> files{};
    std::vector<input::Problem> faults{};  ///< of the input
    std::string reason{};                  ///< why it failed
    /// Of a record that was drawn again: where its kept numbers differ from those of now, one line each, the first of them.
    std::vector<std::string> changed{};
    std::size_t changes = 0;
};

/// One line of JSON, without its end; nothing in it depends on when or where it was written.
std::string to_line(const Outcome& outcome);

/// Nothing for what is no such line, as one that was cut off.
std::optional<Outcome> from_line(std::string_view line);

}  // namespace wayfolio::batch
