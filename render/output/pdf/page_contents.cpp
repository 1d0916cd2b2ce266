#include "output/pdf/page_contents.hpp"

#include "output/pdf/marked_content.hpp"
#include "output/pdf/packed.hpp"

#include <fmt/format.h>

#include <charconv>
#include <stdexcept>

namespace wayfolio::output {

namespace {

[[noreturn]] void spelt_otherwise(std::string_view what) { throw std::logic_error(fmt::format("Cairo spells a page otherwise than it used to: no {}", what)); }

/// The whole number that follows the last `words`.
int number_after(std::string_view written, std::string_view words) {
    const std::size_t found = written.rfind(words);
    int number = 0;
    if (found == std::string_view::npos) spelt_otherwise(words);
    const char* const from = written.data() + found + words.size();
    if (std::from_chars(from, written.data() + written.size(), number).ec != std::errc()) spelt_otherwise(words);
    return number;
}

std::string_view after(std::string_view written, std::string_view words) {
    const std::size_t found = written.find(words);
    if (found == std::string_view::npos) spelt_otherwise(words);
    return written.substr(found + words.size());
}

/// Cairo 1.16 writes the content's stream, then its length as the object that follows it, and last the page that names it.
std::string_view stream_of(std::string_view written) {
    const int object = number_after(written, "\n   /Contents ");
    const std::string begins = fmt::format("{} 0 obj\n<< /Length {} 0 R\n   /Filter /FlateDecode\n>>\nstream\n", object, object + 1);
    const std::string length_begins = fmt::format("\nendstream\nendobj\n{} 0 obj\n   ", object + 1);
    return after(written, begins).substr(0, static_cast<std::size_t>(number_after(written, length_begins)));
}

}  // namespace

void PageContents::add(std::string_view written, std::vector<std::string> types) {
    // A copy: what Cairo writes next moves the bytes.
    pages_.push_back(std::async(std::launch::async, [stream = std::string(stream_of(written)), types = std::move(types)] {
        return packed(with_types_named(unpacked(stream), types));
    }));
}

std::vector<std::string> PageContents::take() {
    std::vector<std::string> contents;
    for (auto& page : pages_) contents.push_back(page.get());
    return contents;
}

}  // namespace wayfolio::output
