#pragma once
#include "evaluate/written/json_sink.hpp"

namespace wayfolio::evaluate {

/// JSON as text, indented by two.
class JsonLines final : public JsonSink {
public:
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

    /// The text, ended by a newline.
    [[nodiscard]] std::string taken() &&;

private:
    void begin_value();
    void new_line();
    void open(char bracket);
    void close(char bracket);

    std::string out_;
    std::size_t depth_ = 0;
    bool first_ = true;       ///< nothing stands yet in what is open
    bool after_key_ = false;  ///< the value belongs on the line that its key began
};

}  // namespace wayfolio::evaluate
