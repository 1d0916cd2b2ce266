#include "output/pdf/srgb_profile.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

namespace wayfolio::output {

namespace {

void append(std::string& bytes, std::uint32_t value, int count) {
    for (int shift = 8 * (count - 1); shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 0xff);
}

/// ICC.1:2010 4.6: s15Fixed16Number.
void append_fixed(std::string& bytes, double value) {
    append(bytes, static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(value * 65536))), 4);
}

std::string tag_type(const char* signature) { return std::string(signature, 4) + std::string(4, '\0'); }

/// ICC.1:2010 10.13: one record of localised text, UTF-16.
std::string text(const std::string& ascii) {
    std::string bytes = tag_type("mluc");
    append(bytes, 1, 4);
    append(bytes, 12, 4);
    bytes += "enUS";
    append(bytes, static_cast<std::uint32_t>(2 * ascii.size()), 4);
    append(bytes, 28, 4);
    for (const char c : ascii) append(bytes, static_cast<unsigned char>(c), 2);
    return bytes;
}

std::string numbers(const char* signature, const std::vector<double>& values) {
    std::string bytes = tag_type(signature);
    for (const double value : values) append_fixed(bytes, value);
    return bytes;
}

/// ICC.1:2010 10.16, function type 3, with the constants of IEC 61966-2-1: linear below 0.04045, else a power of 2.4.
std::string curve() {
    std::string bytes = tag_type("para");
    append(bytes, 3, 2);
    append(bytes, 0, 2);
    for (const double value : {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045}) append_fixed(bytes, value);
    return bytes;
}

using Tag = std::pair<const char*, std::string>;

/// [derived] Primaries (0.64 0.33), (0.30 0.60), (0.15 0.06) and white D65 (0.3127 0.3290) of IEC 61966-2-1, adapted to D50
/// (0.9642 1 0.8249, ICC.1:2010 7.2.16) by the Bradford matrix, which is `chad`.
std::vector<Tag> tags() {
    return {{"desc", text("sRGB")},
            {"cprt", text("No copyright, use freely")},
            {"wtpt", numbers("XYZ ", {0.9642, 1.0, 0.8249})},
            {"chad", numbers("sf32", {1.0478860, 0.0229188, -0.0502161, 0.0295818, 0.9904835, -0.0170787, -0.0092519, 0.0150726,
                                      0.7516781})},
            {"rXYZ", numbers("XYZ ", {0.4360413, 0.2224845, 0.0139202})},
            {"gXYZ", numbers("XYZ ", {0.3851129, 0.7169051, 0.0970672})},
            {"bXYZ", numbers("XYZ ", {0.1430458, 0.0606104, 0.7139126})},
            {"rTRC", curve()},
            {"gTRC", ""},  // the three curves are one: an empty tag shares the data of the tag before
            {"bTRC", ""}};
}

/// ICC.1:2010 7.2, profile header of 128 bytes. The date is that of the sRGB standard, so that the profile never changes.
std::string header(std::size_t size) {
    std::string bytes;
    append(bytes, static_cast<std::uint32_t>(size), 4);
    append(bytes, 0, 4);
    append(bytes, 0x04200000, 4);
    bytes += "mntrRGB XYZ ";
    for (const std::uint32_t part : {1999u, 10u, 18u, 0u, 0u, 0u}) append(bytes, part, 2);
    bytes += "acsp";
    bytes.resize(68, '\0');
    for (const double white : {0.9642, 1.0, 0.8249}) append_fixed(bytes, white);
    bytes.resize(128, '\0');
    return bytes;
}

}  // namespace

std::string srgb_profile() {
    const std::vector<Tag> all = tags();
    std::string table, data;
    const std::size_t data_start = 128 + 4 + 12 * all.size();
    std::size_t offset = data_start, length = 0;
    append(table, static_cast<std::uint32_t>(all.size()), 4);
    for (const auto& [signature, content] : all) {
        if (!content.empty()) {
            data.resize((data.size() + 3) / 4 * 4, '\0');
            offset = data_start + data.size();
            length = content.size();
            data += content;
        }
        table.append(signature, 4);
        append(table, static_cast<std::uint32_t>(offset), 4);
        append(table, static_cast<std::uint32_t>(length), 4);
    }
    data.resize((data.size() + 3) / 4 * 4, '\0');
    return header(data_start + data.size()) + table + data;
}

}  // namespace wayfolio::output
