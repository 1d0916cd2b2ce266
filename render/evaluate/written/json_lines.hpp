#pragma once
#include "evaluate/written/json_sink.hpp"

namespace wayfolio::evaluate {

/// JSON as text, indented by two.
class JsonLines final : public JsonSink {
public:
    /// @param depth of what stands about it, where a part is written by itself
    explicit JsonLines(std::size_t depth = 0) : depth_(depth) {}

    void open_object() override;
    void close_object() override;
    void open_array() override;
    void close_array() override;
    void key(std::string_view name) override;
    void none() override;
    void truth(bool value) override;
    void count(std::uint64_t value) override;
    void number(double value) override;
    void text(std::string_view value) override;
    void json(const Json& value) override;

    /// Makes room for so many bytes at once: each time that a long text grows, it is copied onto pages that nobody touched before.
    void reserve(std::size_t bytes) { out_.reserve(bytes); }

    /// A value whose text was written by itself, at the depth that it has here.
    void written(std::string_view part);

    [[nodiscard]] std::string taken() && { return std::move(out_); }

private:
    void begin_value();
    void new_line();
    void open(char bracket);
    void close(char bracket);

    std::string out_;
    std::size_t depth_;
    bool first_ = true;    ///< nothing stands yet in what is open
    bool in_line_ = true;  ///< the next value belongs on the line that its key began, as the outermost does on the first
};

}  // namespace wayfolio::evaluate
