#pragma once
#include "support/pixels.hpp"
#include "support/run.hpp"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <map>

/// Small PNGs for pages that show pictures of ours: a page of black, greys and a few tints needs no sixteen million colours.
namespace wayfolio::testing {

using PixelColour = std::array<int, 3>;

/// The colours that a picture has most of, as many as a palette holds (PNG, ISO/IEC 15948, 11.2.3).
inline std::vector<PixelColour> most_frequent_colours(const Pixels& pixels) {
    constexpr std::size_t most = 256;
    std::map<PixelColour, std::size_t> counts;
    for (std::size_t i = 0; i < pixels.red.size(); ++i) ++counts[{pixels.red[i], pixels.green[i], pixels.blue[i]}];
    std::vector<std::pair<PixelColour, std::size_t>> ranked(counts.begin(), counts.end());
    std::ranges::stable_sort(ranked, std::greater<>(), [](const auto& one) { return one.second; });
    std::vector<PixelColour> colours;
    for (std::size_t i = 0; i < std::min(most, ranked.size()); ++i) colours.push_back(ranked[i].first);
    return colours;
}

inline std::size_t nearest(const std::vector<PixelColour>& colours, const PixelColour& wanted) {
    const auto distance = [&](const PixelColour& one) {
        int sum = 0;
        for (std::size_t channel = 0; channel < one.size(); ++channel) {
            const int apart = one[channel] - wanted[channel];
            sum += apart * apart;
        }
        return sum;
    };
    return static_cast<std::size_t>(std::ranges::min_element(colours, {}, distance) - colours.begin());
}

inline std::string big_endian(std::size_t value) {
    std::string bytes;
    for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>((value >> shift) & 0xFF);
    return bytes;
}

inline std::string png_chunk(const std::string& kind, const std::string& data) {
    const std::string body = kind + data;
    const auto* bytes = reinterpret_cast<const Bytef*>(body.data());
    return big_endian(data.size()) + body + big_endian(crc32(0, bytes, static_cast<uInt>(body.size())));
}

/// The same picture in its most frequent colours; what has another one takes the nearest of them.
inline std::string with_few_colours(const std::string& png) {
    const support::TemporaryFolder folder;
    const Pixels pixels = read_png(folder.file("picture.png", png));
    const std::vector<PixelColour> colours = most_frequent_colours(pixels);
    std::map<PixelColour, char> known;
    std::string rows, palette;
    for (const PixelColour& colour : colours)
        for (const int channel : colour) palette += static_cast<char>(channel);
    for (std::size_t i = 0; i < pixels.red.size(); ++i) {
        if (i % static_cast<std::size_t>(pixels.width) == 0) rows += '\0';  // no filter
        const PixelColour colour{pixels.red[i], pixels.green[i], pixels.blue[i]};
        const auto [entry, is_new] = known.try_emplace(colour);
        if (is_new) entry->second = static_cast<char>(nearest(colours, colour));
        rows += entry->second;
    }
    uLongf packed_size = compressBound(rows.size());
    std::string packed(packed_size, '\0');
    const auto* bytes = reinterpret_cast<const Bytef*>(rows.data());
    if (compress2(reinterpret_cast<Bytef*>(packed.data()), &packed_size, bytes, rows.size(), Z_BEST_COMPRESSION) != Z_OK)
        throw std::runtime_error("zlib cannot pack the picture");
    packed.resize(packed_size);
    const std::string size = big_endian(static_cast<std::size_t>(pixels.width)) + big_endian(static_cast<std::size_t>(pixels.height));
    const std::string eight_bits_of_a_palette{"\x08\x03\x00\x00\x00", 5};
    return "\x89PNG\r\n\x1a\n" + png_chunk("IHDR", size + eight_bits_of_a_palette) + png_chunk("PLTE", palette) +
           png_chunk("IDAT", packed) + png_chunk("IEND", "");
}

}  // namespace wayfolio::testing
