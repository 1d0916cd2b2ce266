#include "document/read/trace/trace_file.hpp"

#include "document/read/trace/in_order.hpp"
#include "document/read/trace/npy_array.hpp"
#include "document/read/trace/text_block.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace wayfolio::document {
namespace {

/// The blocks of a text, one after the other: what is to be known of the lines before.
class BlocksInOrder {
public:
    explicit BlocksInOrder(const TraceFileSink& sink) : sink_(sink) {}

    /// @returns whether to go on
    bool add(TextBlock& block) {
        // A text may begin with empty lines, more than a block of them.
        if (sample_lines_ == 0 && !has_header_ && lines_ != 0) block.read_as_first();
        block.hand_on(sink_, lines_);
        lines_ += block.lines();
        sample_lines_ += block.sample_lines();
        has_header_ = has_header_ || block.has_header();
        if (sample_lines_ > most_samples_of_a_file)
            sink_.fault({lines_, 1, fmt::format("more than {} samples", most_samples_of_a_file),
                         fmt::format("at most {}", most_samples_of_a_file)});
        ended_ = block.ends_reading() || sample_lines_ > most_samples_of_a_file;
        return !ended_;
    }
    void finish() const {
        if (sample_lines_ == 0 && !ended_) sink_.fault({1, 1, "no samples", "two columns, position and value"});
    }

private:
    const TraceFileSink& sink_;
    std::size_t lines_ = 0, sample_lines_ = 0;
    bool has_header_ = false, ended_ = false;
};

void read_text(const input::ByteSource& source, const TraceFileSink& sink, const TraceReadingBy& by) {
    BlocksInOrder blocks(sink);
    const auto read = [&](std::size_t number, TextBlock& into) {
        const std::size_t from = number * by.block_size;
        into.read(source, from, std::min(from + by.block_size, source.size));
    };
    InOrder<TextBlock>::run((source.size + by.block_size - 1) / by.block_size, by.threads, read,
                            [&](TextBlock& block) { return blocks.add(block); });
    blocks.finish();
}

void read_npy(const input::ByteSource& source, const TraceFileSink& sink) {
    auto opened = NpyArray::open(source);
    if (auto* const wrong = std::get_if<NpyArray::Fault>(&opened))
        return sink.fault({0, 0, std::move(wrong->found), std::move(wrong->expected), std::move(wrong->hint)});
    const NpyArray& array = std::get<NpyArray>(opened);
    if (array.rows() > most_samples_of_a_file)
        return sink.fault({0, 0, fmt::format("{} samples", array.rows()), fmt::format("at most {}", most_samples_of_a_file)});
    if (array.rows() == 0) return sink.fault({0, 0, "no samples", "two columns, position and value"});
    std::vector<WrittenSample> samples;
    std::size_t row = 0;
    array.walk([&](std::span<const NpyArray::Row> rows) {
        samples.clear();
        for (const NpyArray::Row& one : rows) samples.push_back({one.first, one.second, ++row});
        sink.take(samples, 0);
    });
}

}  // namespace

bool is_npy(const input::ByteSource& source) {
    std::array<char, NpyArray::magic.size()> start{};
    return source.read_at(0, start) == start.size() && std::string_view(start.data(), start.size()) == NpyArray::magic;
}

void read_trace_file(const input::ByteSource& source, const TraceFileSink& sink, const TraceReadingBy& by) {
    is_npy(source) ? read_npy(source, sink) : read_text(source, sink, by);
}

}  // namespace wayfolio::document
