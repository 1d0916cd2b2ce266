#pragma once
#include <map>
#include <string>
#include <utility>

namespace wayfolio::output {

/// Objects of a PDF as they are written, by object number: {12, "<</S /P>>"}. Text is made where there are thousands of them.
using ObjectTexts = std::map<int, std::string>;

/// How one object names another.
inline std::string reference(int number) { return std::to_string(number) + " 0 R"; }

/// Objects that are added to a PDF as texts, numbered after all that it has.
class NewObjects {
public:
    explicit NewObjects(int first) : next_(first) {}

    /// A number for an object whose text comes later.
    int number() { return next_++; }
    void put(int number, std::string text) { texts_.emplace_hint(texts_.end(), number, std::move(text)); }
    int add(std::string text) {
        put(next_, std::move(text));
        return next_++;
    }
    [[nodiscard]] ObjectTexts take() { return std::move(texts_); }

private:
    int next_;
    ObjectTexts texts_;
};

}  // namespace wayfolio::output
