#include "archive/verify/unicode_map.hpp"

#include <qpdf/QPDFTokenizer.hh>
#include <qpdf/QUtil.hh>

#include <algorithm>
#include <vector>

namespace wayfolio::archive {
namespace {

unsigned int number_of(const std::string& code) {
    unsigned int number = 0;
    for (const char c : code) number = number << 8 | static_cast<unsigned char>(c);
    return number;
}

/// The strings between two words of a CMap, block after block; brackets of arrays are passed over.
class CMap {
public:
    explicit CMap(const std::string& text) {
        std::vector<std::string> block;
        QPDFTokenizer tokenizer;
        for (const char c : text + " ") {
            tokenizer.presentCharacter(c);
            QPDFTokenizer::Token token;
            bool unread = false;
            char again = 0;
            if (!tokenizer.getToken(token, unread, again)) continue;
            take(token, block);
            if (!unread) continue;
            tokenizer.presentCharacter(again);
            if (tokenizer.getToken(token, unread, again)) take(token, block);
        }
    }
    std::vector<std::string> characters, ranges;

private:
    void take(const QPDFTokenizer::Token& token, std::vector<std::string>& block) {
        if (token.getType() == QPDFTokenizer::tt_string) block.push_back(token.getValue());
        if (token.getType() != QPDFTokenizer::tt_word) return;
        const std::string& word = token.getValue();
        if (word == "beginbfchar" || word == "beginbfrange") block.clear();
        if (word == "endbfchar") characters.insert(characters.end(), block.begin(), block.end());
        if (word == "endbfrange") ranges.insert(ranges.end(), block.begin(), block.end());
    }
};

std::string utf8(const std::string& utf16) { return QUtil::utf16_to_utf8(utf16); }

/// `text`, whose last byte counts up from the start of a range.
std::string counted_up(std::string text, unsigned int by) {
    if (!text.empty()) text.back() = static_cast<char>(static_cast<unsigned char>(text.back()) + by);
    return text;
}

}  // namespace

UnicodeMap unicode_map(unpack::Handle font, unpack::StreamUnpacker& unpacker) {
    UnicodeMap map;
    if (!font.isDictionary()) return map;
    if (font.getKey("/Subtype").isNameAndEquals("/Type0")) map.code_bytes = 2;
    unpack::Handle stream = font.getKey("/ToUnicode");
    if (!stream.isStream()) return map;
    const CMap read(unpacker.unpacked(stream));
    for (std::size_t i = 0; i + 1 < read.characters.size(); i += 2) map.text[number_of(read.characters[i])] = utf8(read.characters[i + 1]);
    constexpr unsigned int longest_range = 256;
    constexpr std::size_t most_ranges = 10'000;  // of two-byte codes there are no more that say anything
    for (std::size_t i = 0; i + 2 < std::min(read.ranges.size(), 3 * most_ranges); i += 3) {
        const unsigned int from = number_of(read.ranges[i]), to = number_of(read.ranges[i + 1]);
        for (unsigned int code = from; code <= to && code - from < longest_range; ++code)
            map.text[code] = utf8(counted_up(read.ranges[i + 2], code - from));
    }
    return map;
}

std::string decoded(const std::string& codes, const UnicodeMap& map) {
    std::string text;
    for (std::size_t at = 0; at + map.code_bytes <= codes.size(); at += map.code_bytes) {
        const auto found = map.text.find(number_of(codes.substr(at, map.code_bytes)));
        text += found == map.text.end() ? "\xEF\xBF\xBD" : found->second;
    }
    return text;
}

}  // namespace wayfolio::archive
