#include "output/pdf/glyph_sample.hpp"

#include <algorithm>
#include <unordered_set>

namespace wayfolio::output {

namespace {

class Sampler {
public:
    std::vector<frame::GlyphRun> sample;

    void take(const std::vector<frame::Item>& items) {
        for (const frame::Item& item : items) {
            if (const auto* group = std::get_if<frame::Group>(&item)) take(group->items);
            if (const auto* run = std::get_if<frame::GlyphRun>(&item)) take(*run);
        }
    }

private:
    /// Clusters stay whole: a glyph that renders a letter alone means another text than within a ligature.
    void take(const frame::GlyphRun& run) {
        std::size_t byte = 0, glyph = 0;
        for (const frame::Cluster& cluster : run.clusters) {
            bool is_new = false;
            for (std::size_t i = glyph; i < glyph + cluster.glyphs; ++i) is_new |= seen_.insert(std::uint64_t{run.face.index} << 32 | run.glyphs[i].id).second;
            if (is_new) add(run, {byte, glyph}, cluster);
            byte += cluster.bytes;
            glyph += cluster.glyphs;
        }
    }

    struct Start {
        std::size_t byte, glyph;
    };

    void add(const frame::GlyphRun& run, Start at, frame::Cluster cluster) {
        // One run for each face: Cairo leaves out a run without ink, such as a space alone.
        auto found = std::ranges::find(sample, run.face, &frame::GlyphRun::face);
        if (found == sample.end()) found = sample.insert(sample.end(), {.face = run.face, .size = size});
        frame::GlyphRun& into = *found;
        into.text.append(run.text, at.byte, cluster.bytes);
        into.clusters.push_back(cluster);
        for (std::size_t i = 0; i < cluster.glyphs; ++i) into.glyphs.push_back({run.glyphs[at.glyph + i].id, place.x, place.y});
    }

    // On any page: Cairo leaves out what lies beyond.
    static constexpr frame::Paper size = units::point(1);
    static constexpr frame::Point place{units::point(1), units::point(2)};
    std::unordered_set<std::uint64_t> seen_;  ///< face and glyph
};

}  // namespace

std::vector<frame::GlyphRun> glyph_sample(const std::vector<frame::Frame>& pages) {
    Sampler sampler;
    for (const frame::Frame& page : pages) sampler.take(page.items);
    return std::move(sampler.sample);
}

}  // namespace wayfolio::output
