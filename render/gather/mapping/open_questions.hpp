#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// One of the answers to a question: a JSON merge patch (RFC 7396) for the object that the question is about.
struct Choice {
    std::string says;
    std::string patch;
};

/// How an answer is given.
enum class AnsweredBy {
    Choice,  ///< one of the choices
    Text,    ///< a text
    Words,   ///< words, which stand in an array
    Pairs,   ///< words with what each means
    Column   ///< a column of the export, which is given that role (gather/propose/propose.hpp)
};

/// An open place of a mapping, as it is asked of a person.
struct OpenQuestion {
    std::string at;   ///< JSON Pointer to the object that holds the open place
    std::string key;  ///< of the open place in it
    std::string asks;
    AnsweredBy by = AnsweredBy::Text;
    std::vector<Choice> choices{};
};

/// Every open place of a mapping that propose() wrote, in its order.
/// @throws input::InputRejected for what is no JSON
std::vector<OpenQuestion> open_questions(std::string_view mapping);

}  // namespace wayfolio::gather
