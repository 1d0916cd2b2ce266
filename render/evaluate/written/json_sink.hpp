#pragma once
#include "evaluate/written/json_text.hpp"

#include <concepts>
#include <cstdint>
#include <string_view>
#include <type_traits>

namespace wayfolio::evaluate {

/// Takes JSON as it is told, one thing after the other. What an evaluation has thousands of goes straight into the text this way: put
/// together as Json first, two thirds of the time went into trees that were written once and thrown away.
class JsonSink {
public:
    JsonSink() = default;
    JsonSink(const JsonSink&) = delete;
    JsonSink& operator=(const JsonSink&) = delete;
    virtual ~JsonSink() = default;

    virtual void open_object() = 0;
    virtual void close_object() = 0;
    virtual void open_array() = 0;
    virtual void close_array() = 0;
    /// Within an object, before each value. No key is given twice.
    virtual void key(std::string_view name) = 0;

    virtual void none() = 0;
    virtual void truth(bool value) = 0;
    virtual void count(std::uint64_t value) = 0;
    /// @throws std::logic_error if `value` is not finite
    virtual void number(double value) = 0;
    virtual void text(std::string_view value) = 0;
    virtual void json(const Json& value) = 0;

    /// Whichever of these it is.
    template <class T>
    void value(const T& value) {
        if constexpr (std::same_as<T, bool>) truth(value);
        else if constexpr (std::unsigned_integral<T>) count(value);
        else if constexpr (std::integral<T>) json(Json(value));
        else if constexpr (std::floating_point<T>) number(value);
        else if constexpr (std::same_as<T, Json>) json(value);
        else if constexpr (std::convertible_to<T, std::string_view>) text(value);
        else list(value);
    }

    template <class T>
    void add(std::string_view name, const T& member) {
        key(name);
        value(member);
    }

private:
    template <class Items>
    void list(const Items& items) {
        open_array();
        for (const auto& item : items) value(item);
        close_array();
    }
};

/// An object, an array, with what `inside` tells.
template <std::invocable Inside>
void write_object(JsonSink& to, const Inside& inside) {
    to.open_object();
    inside();
    to.close_object();
}

template <std::invocable Inside>
void write_array(JsonSink& to, const Inside& inside) {
    to.open_array();
    inside();
    to.close_array();
}

/// An array of what `write(to, item)` tells of each.
template <class Items, class Write>
void write_list(JsonSink& to, const Items& items, const Write& write) {
    write_array(to, [&] {
        for (const auto& item : items) write(to, item);
    });
}

/// Adds `name` where there is a value.
void add(JsonSink& object, std::string_view name, const std::optional<Deviation>& deviation, const DeviationUnit& series_unit);
void add(JsonSink& object, std::string_view name, const std::optional<double>& number);
void add(JsonSink& object, std::string_view name, const std::string& text);

}  // namespace wayfolio::evaluate
