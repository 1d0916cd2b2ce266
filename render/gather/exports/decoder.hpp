#pragma once
#include "gather/exports/dialect.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::gather {

/// Turns bytes that come in pieces into UTF-8, without a byte-order mark.
class Decoder {
public:
    explicit Decoder(Encoding encoding) : stated_(encoding) {}

    struct Bad {
        std::size_t place;  ///< in the text given
        std::string found, expected, hint;
    };
    struct Text {
        std::string_view text;     ///< UTF-8; it holds until the next call
        std::optional<Bad> bad{};  ///< what is not written in the encoding; the text then ends before it
    };
    /// @param last no more bytes come
    Text decoded(std::string_view piece, bool last);

private:
    enum class Form { Unknown, Utf8, Utf16Little, Utf16Big, Latin1 };

    [[nodiscard]] std::optional<Bad> begin();
    Text utf8(bool last);
    Text utf16(bool last);
    Text latin1();

    Encoding stated_;
    Form form_ = Form::Unknown;
    std::string waiting_;  ///< bytes not decoded yet
    std::string text_;
};

}  // namespace wayfolio::gather
