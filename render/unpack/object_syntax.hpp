#pragma once
#include <cstddef>
#include <stdexcept>
#include <string_view>
#include <vector>

/// What the text of objects asks of its reader, found out without reading it into objects: libqpdf takes about 300 bytes for each.
namespace wayfolio::unpack {

/// A file that asks for more than such a file may.
struct TooMuch : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// How many objects the object streams of a file may hold: what this program writes has one for four of its bytes.
constexpr std::size_t most_objects(std::size_t file_bytes) { return 800'000 + file_bytes / 2; }

bool is_white(char byte);
/// Whether it ends a name, a number or a word (ISO 32000-1, 7.2.2); libqpdf takes a vertical tab for white space, too.
bool ends_word(char byte);

/// How many objects stand in the text of an object stream.
/// @param starts places in `text` where objects begin, in any order
/// @throws TooMuch where one of them lies within another, so that reading them takes time by the square of their number; or where the
///   text is not written as ISO 32000-1, 7.3 says, for then nobody knows where an object ends
std::size_t objects_in(std::string_view text, std::vector<std::size_t> starts);

/// @throws TooMuch where the content of one page holds more operators and operands than can be read
void require_readable_content(std::string_view content);

}  // namespace wayfolio::unpack
