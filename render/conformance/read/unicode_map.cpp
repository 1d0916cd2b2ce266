#include "conformance/read/unicode_map.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::conformance {

namespace {

unsigned number_of(const std::string& bytes) {
    unsigned number = 0;
    for (const char byte : bytes) number = number << 8U | static_cast<unsigned char>(byte);
    return number;
}

std::u32string from_utf16(const std::string& bytes) {
    std::u32string made;
    const auto unit = [&](std::size_t at) { return number_of(bytes.substr(at, 2)); };
    for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
        char32_t character = unit(at);
        if (character >= 0xD800 && character < 0xDC00 && at + 3 < bytes.size()) {
            character = 0x10000 + ((character - 0xD800) << 10U) + (unit(at + 2) - 0xDC00);
            at += 2;
        }
        made += character;
    }
    return made;
}

/// Reads the parts "bfchar" and "bfrange" of a CMap, which is PostScript and reads like a content stream.
class MapReader : public Handle::ParserCallbacks {
public:
    explicit MapReader(std::map<unsigned, std::u32string>& into) : into_(into) {}
    void handleObject(Handle object, std::size_t, std::size_t) override {
        if (!object.isOperator()) return operands_.push_back(object);
        if (object.getOperatorValue() == "endbfchar") single();
        if (object.getOperatorValue() == "endbfrange") ranges();
        operands_.clear();
    }
    void handleEOF() override {}

private:
    void single() {
        for (std::size_t i = 0; i + 1 < operands_.size(); i += 2)
            if (operands_[i].isString() && operands_[i + 1].isString())
                into_[number_of(operands_[i].getStringValue())] = from_utf16(operands_[i + 1].getStringValue());
    }
    void ranges() {
        for (std::size_t i = 0; i + 2 < operands_.size(); i += 3)
            if (operands_[i].isString() && operands_[i + 1].isString()) range(operands_[i], operands_[i + 1], operands_[i + 2]);
    }
    void range(Handle first, Handle last, Handle meaning) {
        constexpr unsigned highest = 0xFFFF;
        const unsigned from = number_of(first.getStringValue()), to = std::min(number_of(last.getStringValue()), highest);
        for (unsigned code = from; code <= to; ++code) {
            if (++said_ > most_said) throw std::runtime_error("a map to Unicode says more than a font can hold");
            if (meaning.isArray() && code - from < static_cast<unsigned>(meaning.getArrayNItems()))
                into_[code] = from_utf16(meaning.getArrayItem(static_cast<int>(code - from)).getStringValue());
            if (!meaning.isString()) continue;
            std::u32string text = from_utf16(meaning.getStringValue());
            if (!text.empty()) text.back() += code - from;
            into_[code] = text;
        }
    }

    static constexpr int most_said = 2 * 65'536;  // each code twice
    std::map<unsigned, std::u32string>& into_;
    std::vector<Handle> operands_;
    int said_ = 0;
};

}  // namespace

std::map<unsigned, std::u32string> unicode_of(Handle font, unpack::StreamUnpacker& unpacker) {
    std::map<unsigned, std::u32string> map;
    Handle stream = font.getKey("/ToUnicode");
    MapReader reader(map);
    if (stream.isStream()) unpack::parse_content(unpacker.unpacked(stream), reader);
    return map;
}

}  // namespace wayfolio::conformance
