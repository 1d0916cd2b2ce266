#include "output/pdf/drawn_objects.hpp"

namespace wayfolio::output {

std::vector<Handle> objects_beginning(QPDF& file, const std::string& drawn, std::string_view beginning) {
    const std::string_view text(drawn);
    std::vector<Handle> found;
    for (const auto& [id, entry] : file.getXRefTable()) {
        constexpr int in_the_open = 1;  // ISO 32000-1 table 18; Cairo 1.16 writes no object streams
        if (entry.getType() != in_the_open) continue;
        // Each object begins with "N 0 obj" on a line of its own.
        const std::size_t line_end = text.find('\n', static_cast<std::size_t>(entry.getOffset()));
        if (line_end != std::string_view::npos && text.substr(line_end + 1).starts_with(beginning)) found.push_back(file.getObject(id));
    }
    return found;
}

}  // namespace wayfolio::output
