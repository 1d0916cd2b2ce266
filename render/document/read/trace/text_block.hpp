#pragma once
#include "document/read/trace/trace_file.hpp"

#include <string_view>
#include <vector>

namespace wayfolio::document {

/// Some lines of a trace's text, taken apart without knowing those before them: lines and samples are counted from where the block begins.
/// It is filled again and again, for it takes longer to get its memory from the system than to read.
class TextBlock {
public:
    static constexpr std::size_t longest_line = 65'536;

    /// Reads the lines that begin from `from` on and before `to`: a line belongs to the block that it begins in.
    void read(const input::ByteSource& source, std::size_t from, std::size_t to);
    /// The same lines, of which the first that is not empty may be a header: there were none before.
    void read_as_first();

    [[nodiscard]] std::size_t lines() const { return lines_; }
    /// With samples, faulty ones included.
    [[nodiscard]] std::size_t sample_lines() const { return sample_lines_; }
    [[nodiscard]] bool has_header() const { return has_header_; }
    /// Whether nothing behind its last fault is worth reading.
    [[nodiscard]] bool ends_reading() const { return ends_reading_; }

    /// Samples and faults as they stand among each other.
    /// @param lines_before the block
    void hand_on(const TraceFileSink& sink, std::size_t lines_before) const;

private:
    struct Fault {
        TraceFault fault;
        std::size_t samples_before;
    };

    [[nodiscard]] std::string_view own_lines(const input::ByteSource& source, std::size_t from, std::size_t to);
    void take_apart(bool may_have_header);
    const char* read_line(const char* at, bool may_be_header);
    const char* end_line(const char* line, const char* at);
    const char* wrong(const char* line, const char* at, std::string_view expected);
    void end_with_long_line();
    void end_with(TraceFault fault);

    std::vector<char> bytes_;
    std::string_view text_;  ///< whole lines, each with the mark at its end; within bytes_
    bool first_ = false;     ///< of the file
    std::vector<WrittenSample> samples_;
    std::vector<Fault> faults_;
    std::size_t lines_ = 0, sample_lines_ = 0;
    bool has_header_ = false, ends_reading_ = false;
};

}  // namespace wayfolio::document
