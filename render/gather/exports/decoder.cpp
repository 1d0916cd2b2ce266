#include "gather/exports/decoder.hpp"

#include "input/encoding.hpp"

#include <fmt/format.h>

namespace wayfolio::gather {
namespace {

constexpr std::string_view little_mark = "\xFF\xFE", big_mark = "\xFE\xFF";

std::uint32_t byte_at(std::string_view bytes, std::size_t place) { return static_cast<unsigned char>(bytes[place]); }

}  // namespace

/// A byte-order mark says how the text is written (RFC 3629 6, RFC 2781 3.2). What the mapping says must not contradict it.
std::optional<Decoder::Bad> Decoder::begin() {
    const bool little = waiting_.starts_with(little_mark), big = waiting_.starts_with(big_mark);
    const bool utf8_mark = waiting_.starts_with(input::utf8_byte_order_mark);
    const auto contradicted = [](std::string_view mark, std::string_view stated) {
        return Bad{0, fmt::format("the byte-order mark of {}", mark), fmt::format("{}, as the mapping says", stated),
                   "leave out \"encoding\": the mark says it"};
    };
    if ((little || big) && (stated_ == Encoding::Utf8 || stated_ == Encoding::Latin1))
        return contradicted("UTF-16", stated_ == Encoding::Utf8 ? "UTF-8" : "Latin-1");
    if (utf8_mark && (stated_ == Encoding::Utf16 || stated_ == Encoding::Latin1))
        return contradicted("UTF-8", stated_ == Encoding::Utf16 ? "UTF-16" : "Latin-1");
    if (!little && !big && stated_ == Encoding::ByMark && input::looks_like_utf16(waiting_))
        return Bad{0, "UTF-16 without a byte-order mark", "UTF-8", R"(say "encoding": "utf-16" in the mapping)"};
    if (little || big) form_ = little ? Form::Utf16Little : Form::Utf16Big;
    // Without a mark, text of a machine tool begins with a letter below U+0100: its upper byte is 0.
    else if (stated_ == Encoding::Utf16)
        form_ = waiting_.size() > 1 && waiting_[1] == '\0' ? Form::Utf16Little : Form::Utf16Big;
    else
        form_ = stated_ == Encoding::Latin1 ? Form::Latin1 : Form::Utf8;
    waiting_.erase(0, little || big ? little_mark.size() : utf8_mark ? input::utf8_byte_order_mark.size() : 0);
    return std::nullopt;
}

Decoder::Text Decoder::decoded(std::string_view piece, bool last) {
    if (form_ == Form::Utf8 && waiting_.empty() && input::first_invalid_utf8(piece) == std::string_view::npos) return {piece};
    waiting_ += piece;
    if (form_ == Form::Unknown) {
        if (waiting_.size() < 4 && !last) return {};
        if (auto bad = begin()) return {{}, std::move(bad)};
    }
    if (form_ == Form::Utf8) return utf8(last);
    return form_ == Form::Latin1 ? latin1() : utf16(last);
}

Decoder::Text Decoder::utf8(bool last) {
    text_ = std::move(waiting_);
    waiting_.clear();
    const std::size_t bad = input::first_invalid_utf8(text_);
    if (bad == std::string_view::npos) return {text_};
    // The end of a piece may cut a letter of at most four bytes.
    if (!last && text_.size() - bad < 4 && byte_at(text_, bad) >= 0xC2) {
        waiting_ = text_.substr(bad);
        text_.resize(bad);
        return {text_};
    }
    const std::string_view before = std::string_view(text_).substr(0, bad);
    return {before, Bad{bad, fmt::format("the byte 0x{:02X}", byte_at(text_, bad)), "UTF-8",
                        R"(say "encoding": "latin-1" in the mapping if that is how the file is written)"}};
}

Decoder::Text Decoder::latin1() {
    text_.clear();
    for (std::size_t place = 0; place < waiting_.size(); ++place) input::append_utf8(text_, byte_at(waiting_, place));
    waiting_.clear();
    return {text_};
}

/// Surrogates by RFC 2781 2.2.
Decoder::Text Decoder::utf16(bool last) {
    const auto unit = [&](std::size_t at) {
        const std::uint32_t first = byte_at(waiting_, at), second = byte_at(waiting_, at + 1);
        return form_ == Form::Utf16Little ? first + 256 * second : 256 * first + second;
    };
    text_.clear();
    std::size_t at = 0;
    for (; at + 1 < waiting_.size(); at += 2) {
        std::uint32_t letter = unit(at);
        if (letter >= 0xD800 && letter < 0xE000) {
            if (at + 3 >= waiting_.size() && !last) break;
            const std::uint32_t low = at + 3 < waiting_.size() ? unit(at + 2) : 0;
            if (letter >= 0xDC00 || low < 0xDC00 || low >= 0xE000)
                return {text_, Bad{text_.size(), fmt::format("half a letter, 0x{:04X}", letter), "UTF-16", {}}};
            letter = 0x10000 + ((letter - 0xD800) << 10U) + (low - 0xDC00);
            at += 2;
        }
        input::append_utf8(text_, letter);
    }
    waiting_.erase(0, at);
    if (last && !waiting_.empty()) return {text_, Bad{text_.size(), "half a letter at the end", "UTF-16", "is the file cut off?"}};
    return {text_};
}

}  // namespace wayfolio::gather
