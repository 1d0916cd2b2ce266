#pragma once
#include "input/json/json.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
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

/// What a number must be, in words and as a test.
struct NumberRule {
    std::string_view expected;
    bool (*holds)(double);
    std::string_view hint = {};
};
inline constexpr NumberRule any_number{"a number", [](double) { return true; }};
inline constexpr NumberRule zero_or_more{"a number of 0 or more", [](double n) { return n >= 0; }};
inline constexpr NumberRule above_zero{"a number above 0", [](double n) { return n > 0; }};

/// One word of a closed set and what it means.
template <class T>
struct Word {
    std::string_view text;
    T meaning;
};

/// Reads the members of one object: asks for keys by name, notes what is missing or of the wrong type, and at the end what nobody asked
/// for. Keys that begin with "x-" are passed over everywhere; `internal` may stand everywhere and holds remarks and "x-" keys. A value that
/// is faulty counts as absent, so that one mistake is told once.
class ObjectReader {
public:
    /// `expected` says what the object is, e.g. "a series".
    ObjectReader(const Value& value, Faults& faults, std::string_view expected = "an object");

    [[nodiscard]] bool is_object() const { return value_.is(JsonKind::Object); }
    [[nodiscard]] const Value& value() const { return value_; }
    [[nodiscard]] Faults& faults() const { return faults_; }

    /// The member, or nullptr; makes the key known.
    const Value* find(std::string_view key);
    /// The member, or nullptr and a fault.
    const Value* require(std::string_view key, std::string_view expected);

    /// A text, empty if absent.
    std::string text(std::string_view key);
    /// A text that must be there and not be empty.
    std::string required_text(std::string_view key, std::string_view expected);
    std::vector<std::string> texts(std::string_view key, std::size_t most = 10'000);
    std::optional<double> number(std::string_view key, const NumberRule& rule = any_number);
    std::optional<double> required_number(std::string_view key, const NumberRule& rule = any_number);
    std::optional<bool> flag(std::string_view key);
    /// A whole number (2, 2.0 and 2e3 are whole).
    std::optional<std::uint64_t> whole(std::string_view key, std::uint64_t least, std::uint64_t most);
    /// Elements of an array, an empty span if absent; more than `most` are a fault.
    std::span<const Value> array(std::string_view key, std::string_view expected, std::size_t most = 10'000);

    /// One word of a closed set; `what` names the set, e.g. "a decision rule".
    template <class T, std::size_t N>
    std::optional<T> choice(std::string_view key, std::string_view what, const std::array<Word<T>, N>& words) {
        const Value* const member = find(key);
        return member == nullptr ? std::nullopt : word_of(*member, what, words);
    }
    template <class T, std::size_t N>
    std::optional<T> required_choice(std::string_view key, std::string_view what, const std::array<Word<T>, N>& words) {
        const Value* const member = require(key, what);
        return member == nullptr ? std::nullopt : word_of(*member, what, words);
    }
    template <class T, std::size_t N>
    std::optional<T> word_of(const Value& member, std::string_view what, const std::array<Word<T>, N>& words) {
        std::array<std::string_view, N> spellings;
        for (std::size_t place = 0; place < N; ++place) spellings[place] = words[place].text;
        const auto place = place_of_word(member, what, spellings);
        return place ? std::optional<T>(words[*place].meaning) : std::nullopt;
    }

    /// The place of a text among `spellings`, or a fault that lists them and suggests the nearest.
    std::optional<std::size_t> place_of_word(const Value& member, std::string_view what, std::span<const std::string_view> spellings);
    /// Whether a value is of a kind; a fault if not.
    bool expect(const Value& member, JsonKind kind, std::string_view expected);
    std::optional<double> number_of(const Value& member, const NumberRule& rule);

    /// Reports keys that nobody asked for, with the nearest known one.
    void finish();

private:
    std::string text_of(const Value& member);

    const Value& value_;
    Faults& faults_;
    std::vector<std::string_view> known_;
};

/// Why a text cannot stand on a page or in a string of a PDF for archives (ISO 19005-3, 6.2.11.7.3 and 6.1.13): what it is, and what is
/// asked for. Nothing where it can. The text is well-formed UTF-8.
struct TextFault {
    std::string found, expected, hint;
};
std::optional<TextFault> text_fault(std::string_view text);

/// Whether a key is passed over in every object: "x-…" or `internal`.
bool is_passed_over(std::string_view key);
/// Checks an `internal` object: remarks and "x-" keys.
void check_internal(const Value& value, Faults& faults);

}  // namespace wayfolio::input
