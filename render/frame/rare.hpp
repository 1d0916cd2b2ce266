#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace wayfolio::frame {

/// A value that few of many objects have: as large as a pointer where there is none, an allocation of its own where there is one. Copied
/// and moved with what it holds, as std::optional is. Pages hold tens of thousands of groups, most of them without any of these.
template <class T>
class Rare {
public:
    Rare() = default;
    Rare(std::nullopt_t) {}
    Rare(T value) : held_(std::make_unique<T>(std::move(value))) {}
    Rare(std::optional<T> value) : held_(value ? std::make_unique<T>(*std::move(value)) : nullptr) {}
    Rare(const Rare& other) : held_(other.held_ ? std::make_unique<T>(*other.held_) : nullptr) {}
    Rare(Rare&&) noexcept = default;
    Rare& operator=(const Rare& other) { return *this = Rare(other); }
    Rare& operator=(Rare&&) noexcept = default;
    ~Rare() = default;

    explicit operator bool() const { return held_ != nullptr; }
    [[nodiscard]] bool has_value() const { return held_ != nullptr; }
    const T& operator*() const { return *held_; }
    const T* operator->() const { return held_.get(); }
    [[nodiscard]] std::optional<T> value() const { return held_ ? std::optional(*held_) : std::nullopt; }

private:
    std::unique_ptr<T> held_;
};

/// A text that few of many objects have; an empty one and none are the same.
class RareText {
public:
    RareText() = default;
    RareText(std::string text) : held_(text.empty() ? Rare<std::string>() : Rare<std::string>(std::move(text))) {}
    RareText(std::string_view text) : RareText(std::string(text)) {}
    RareText(const char* text) : RareText(std::string(text)) {}

    [[nodiscard]] const std::string& text() const {
        static const std::string none;
        return held_ ? *held_ : none;
    }
    operator const std::string&() const { return text(); }
    [[nodiscard]] bool empty() const { return !held_; }
    bool operator==(std::string_view other) const { return text() == other; }
    friend std::string operator+(std::string_view before, const RareText& text) { return std::string(before) + text.text(); }
    friend std::string operator+(const RareText& text, std::string_view after) { return text.text() + std::string(after); }

private:
    Rare<std::string> held_;
};

}  // namespace wayfolio::frame
