#pragma once
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace wayfolio::support {

/// A zip archive of files that are stored as they are (APPNOTE 4.3, from memory): what spreadsheets for tests are made of.
inline std::string stored_zip(const std::vector<std::pair<std::string, std::string>>& files) {
    const auto number = [](std::uint64_t value, int bytes) {
        std::string text;
        for (int i = 0; i < bytes; ++i) text += static_cast<char>((value >> (8 * i)) & 0xFF);
        return text;
    };
    const auto crc = [](const std::string& bytes) {
        std::uint32_t rest = 0xFFFFFFFF;
        for (const char byte : bytes) {
            rest ^= static_cast<unsigned char>(byte);
            for (int bit = 0; bit < 8; ++bit) rest = (rest >> 1) ^ ((rest & 1) != 0 ? 0xEDB88320U : 0U);
        }
        return ~rest;
    };
    std::string archive, directory;
    for (const auto& [name, bytes] : files) {
        const std::string facts = number(20, 2) + number(0, 2) + number(0, 2) + number(0, 4) + number(crc(bytes), 4) +
                                  number(bytes.size(), 4) + number(bytes.size(), 4) + number(name.size(), 2) + number(0, 2);
        directory += "PK\x01\x02" + number(20, 2) + facts + number(0, 2) + number(0, 2) + number(0, 2) + number(0, 4) +
                     number(archive.size(), 4) + name;
        archive += "PK\x03\x04" + facts + name + bytes;
    }
    const std::string end = "PK\x05\x06" + number(0, 4) + number(files.size(), 2) + number(files.size(), 2) + number(directory.size(), 4) +
                            number(archive.size(), 4) + number(0, 2);
    return archive + directory + end;
}

}  // namespace wayfolio::support
