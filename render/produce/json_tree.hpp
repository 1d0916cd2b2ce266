#pragma once
#include "evaluate/written/json_sink.hpp"

#include <vector>

namespace wayfolio::produce {

/// What was told, as Json: for who changes it before it is written.
class JsonTree final : public evaluate::JsonSink {
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
    void json(const evaluate::Json& value) override;

    [[nodiscard]] evaluate::Json taken() && { return std::move(root_); }

private:
    /// Puts it where it belongs, and says where it lies now.
    evaluate::Json& put(evaluate::Json value);

    evaluate::Json root_;
    std::vector<evaluate::Json*> open_;  ///< a parent does not change while its child is open, so that the child does not move
    std::string key_;
};

}  // namespace wayfolio::produce
