#pragma once
#include "text/threads.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// Bytes that lie packed in a file.
struct Packed {
    std::string bytes;
    bool pack;  ///< whether packing is still to be done or, afterwards, was
};

/// More takes twice as long for a thirtieth of the size; it is spent on what a PDF carries and on its pages.
enum class Effort { Usual, More };

/// Packed in the format of zlib (RFC 1950).
std::string packed(std::string_view bytes, Effort effort = Effort::Usual);
/// What was packed so. @throws std::runtime_error when it was not
std::string unpacked(std::string_view packed_bytes);

/// input::share_out() over all processors, where one drawing may have them.
void share_out(std::size_t count, text::Threads threads, const std::function<void(std::size_t)>& work);

/// Packs all that are to be, shared out: the result is the same on every machine.
void pack(const std::vector<Packed*>& all, text::Threads threads);

}  // namespace wayfolio::output
